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
constexpr std::array<std::string_view, 2> kCounted{"characters", "rows"};

using Values = std::vector<std::pair<std::string_view, std::string>>;

/// A text whose placeholders are all ours; other ones are a fault.
std::string read_text(const base::Toml& table, base::TomlReader& reader, const std::string& key,
                      base::FileFaults& faults) {
  std::string text = reader.text(key);
  const std::string rest = base::fill(text, {{"field", ""}, {"value", ""}, {"accepted", ""}});
  if (rest.find_first_of("{}") != std::string::npos) {
    faults.push_back({std::string(kFile), table.members.find(key)->second.line,
                      "'" + key + "' has a placeholder other than {field}, {value}, {accepted}"});
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
    for (const entries::RefusalCode code : entries::all_refusal_codes()) {
      const std::string key(entries::refusal_key(code));
      wording.sentences_.emplace(code, read_text(*toml, reader, key, faults));
    }
    if (const base::Toml* table = reader.table("labels")) {
      base::TomlReader labels(*table, path, faults);
      std::vector<std::string_view> names(kEnvelopeMembers.begin(), kEnvelopeMembers.end());
      names.push_back(kRow);
      names.insert(names.end(), kCounted.begin(), kCounted.end());
      for (const std::string_view name : names) {
        wording.labels_.emplace(name, read_text(*table, labels, std::string(name), faults));
      }
      labels.finish();
    } else {
      reader.fault("[labels] is missing");
    }
    reader.finish();
    if (!faults.empty()) return faults;
    return wording;
  }
  return base::FileFaults{{path, 0, "the file is missing"}};
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
  Values counted;
  for (const std::string_view name : kCounted) {
    counted.emplace_back(name, labels_.find(name)->second);
  }
  const Values values{{"field", label(refusal.pointer, forms)},
                      {"value", refusal.value},
                      {"accepted", base::fill(refusal.accepted, counted)}};
  return base::fill(found->second, values);
}

}  // namespace benchwarden::forms
