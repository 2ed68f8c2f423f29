#include "forms/wording.h"

#include <array>
#include <cassert>
#include <charconv>

#include "base/text.h"
#include "forms/envelope.h"

namespace benchwarden::forms {
namespace {

constexpr std::string_view kFile = "forms/wording/refusals.toml";
constexpr std::string_view kFieldsPrefix = "/fields/";
constexpr std::string_view kRow = "row";
/// Words that values and bounds have placeholders for.
constexpr std::array<std::string_view, 3> kInValues{"characters", "rows", "to"};

using Values = std::vector<std::pair<std::string_view, std::string>>;

using Names = std::vector<std::string_view>;

const Names kOfRefusals{"field", "value", "accepted"};
const Names kOfQuestions{"field", "why"};
const Names kOfReasons{"value", "accepted", "thing"};

/// A text whose placeholders are all of these; other ones are a fault.
std::string read_text(const base::Toml& table, base::TomlReader& reader, const std::string& key,
                      const Names& placeholders, base::FileFaults& faults) {
  std::string text = reader.text(key);
  Values empty;
  std::vector<std::string> known;
  for (const std::string_view name : placeholders) {
    empty.emplace_back(name, "");
    known.push_back("{" + std::string(name) + "}");
  }
  if (base::fill(text, empty).find_first_of("{}") != std::string::npos) {
    faults.push_back({std::string(kFile), table.members.find(key)->second.line,
                      "'" + key + "' has a placeholder other than " + base::join(known, ", ")});
  }
  return text;
}

/// "loads", "1/volume_ml" of "loads/1/volume_ml".
std::pair<std::string_view, std::string_view> split_first(std::string_view path) {
  const std::size_t slash = path.find('/');
  if (slash == std::string_view::npos) return {path, {}};
  return {path.substr(0, slash), path.substr(slash + 1)};
}

const FieldDefinition* find_in(const std::vector<const Definition*>& forms,
                               std::string_view field) {
  for (const Definition* form : forms) {
    if (const FieldDefinition* found = find_field(*form, field)) return found;
  }
  return nullptr;
}

}  // namespace

base::Result<Wording, base::FileFaults> Wording::load(const base::DataFiles& files) {
  const std::string path(kFile);
  for (const base::DataFile& file : files) {
    if (file.path != path) continue;
    const auto toml = base::parse_toml(file.bytes, path);
    if (!toml) return toml.error();
    Wording wording;
    base::FileFaults faults;
    base::TomlReader reader(*toml, path, faults);
    wording.read_sentences(*toml, reader, faults);
    wording.read_reasons(reader, faults);
    wording.read_labels(reader, faults);
    reader.finish();
    if (!faults.empty()) return faults;
    return wording;
  }
  return base::FileFaults{{path, 0, "the file is missing"}};
}

void Wording::read_sentences(const base::Toml& table, base::TomlReader& reader,
                             base::FileFaults& faults) {
  for (const entries::RefusalCode code : entries::all_refusal_codes()) {
    const bool asks = code == entries::RefusalCode::kNeedsConfirmation;
    const std::string key(entries::refusal_key(code));
    sentences_.emplace(code,
                       read_text(table, reader, key, asks ? kOfQuestions : kOfRefusals, faults));
  }
}

void Wording::read_reasons(base::TomlReader& reader, base::FileFaults& faults) {
  const base::Toml* table = reader.table("confirmations");
  if (table == nullptr) return reader.fault("[confirmations] is missing");
  base::TomlReader reasons(*table, reader.file(), faults);
  for (const entries::Unusual unusual : entries::all_unusual()) {
    const std::string key(entries::unusual_key(unusual));
    reasons_.emplace(unusual, read_text(*table, reasons, key, kOfReasons, faults));
  }
  reasons.finish();
}

void Wording::read_labels(base::TomlReader& reader, base::FileFaults& faults) {
  const base::Toml* table = reader.table("labels");
  if (table == nullptr) return reader.fault("[labels] is missing");
  base::TomlReader labels(*table, reader.file(), faults);
  std::vector<std::string_view> names(kEnvelopeMembers.begin(), kEnvelopeMembers.end());
  names.push_back(kRow);
  names.insert(names.end(), kInValues.begin(), kInValues.end());
  for (const std::string_view name : names) {
    labels_.emplace(name, read_text(*table, labels, std::string(name), kOfRefusals, faults));
  }
  labels.finish();
}

std::string Wording::row_label(std::string_view index, const std::string& field) const {
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(index.data(), index.data() + index.size(), number);
  if (error != std::errc{} || end != index.data() + index.size()) {
    return field + ", " + std::string(index);
  }
  const Values values{{"value", std::to_string(number + 1)}, {"field", field}};
  return base::fill(labels_.find(kRow)->second, values);
}

std::string Wording::label_of_field(std::string_view path,
                                    const std::vector<const Definition*>& forms) const {
  const auto [name, rest] = split_first(path);
  const FieldDefinition* field = find_in(forms, name);
  if (field == nullptr) return std::string(path);
  if (rest.empty()) return field->label;
  const auto [index, column] = split_first(rest);
  const auto [column_name, inner] = split_first(column);
  const FieldDefinition* known = find_field(field->columns, column_name);
  if (known == nullptr)
    return row_label(index, column.empty() ? field->label : std::string(column));
  return row_label(index, inner.empty() ? known->label : known->label + ", " + std::string(inner));
}

std::string Wording::label(std::string_view pointer,
                           const std::vector<const Definition*>& forms) const {
  if (pointer.starts_with(kFieldsPrefix)) {
    return label_of_field(pointer.substr(kFieldsPrefix.size()), forms);
  }
  const auto [name, rest] = split_first(pointer.substr(pointer.empty() ? 0 : 1));
  const auto member = labels_.find(name);
  if (member == labels_.end()) return std::string(pointer.substr(pointer.empty() ? 0 : 1));
  return member->second;
}

std::string Wording::sentence(const entries::Refusal& refusal,
                              const std::vector<const Definition*>& forms) const {
  const auto found = sentences_.find(refusal.code);
  assert(found != sentences_.end());
  Values words;
  for (const std::string_view name : kInValues)
    words.emplace_back(name, labels_.find(name)->second);
  Values values{{"field", label(refusal.pointer, forms)},
                {"value", refusal.value},
                {"accepted", base::fill(refusal.accepted, words)},
                {"thing", refusal.thing}};
  values.emplace_back("why", base::fill(reasons_.find(refusal.unusual)->second, values));
  return base::fill(found->second, values);
}

}  // namespace benchwarden::forms
