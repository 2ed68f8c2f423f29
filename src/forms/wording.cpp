#include "forms/wording.h"

#include <cassert>

#include "base/text.h"

namespace benchwarden::forms {
namespace {

constexpr std::string_view kFile = "forms/wording/refusals.toml";
constexpr std::string_view kFieldsPrefix = "/fields/";

std::string field_of(std::string_view pointer) {
  if (pointer.starts_with(kFieldsPrefix)) {
    return std::string(pointer.substr(kFieldsPrefix.size()));
  }
  return std::string(pointer.substr(pointer.empty() ? 0 : 1));
}

std::string filled(const std::string& sentence, const entries::Refusal& refusal) {
  return base::fill(sentence, {{"field", field_of(refusal.pointer)},
                               {"value", refusal.value},
                               {"accepted", refusal.accepted}});
}

/// Whether `fill` leaves no brace: every placeholder is one of ours.
bool has_only_known_placeholders(const std::string& sentence) {
  const std::string text = filled(sentence, {"", entries::RefusalCode::kMissing, "", ""});
  return text.find_first_of("{}") == std::string::npos;
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
      const std::string sentence = reader.text(key);
      if (!has_only_known_placeholders(sentence)) {
        faults.push_back(
            {path, toml->members.find(key)->second.line,
             "'" + key + "' has a placeholder other than {field}, {value}, {accepted}"});
      }
      wording.sentences_.emplace(code, sentence);
    }
    reader.finish();
    if (!faults.empty()) return faults;
    return wording;
  }
  return base::FileFaults{{path, 0, "the file is missing"}};
}

std::string Wording::sentence(const entries::Refusal& refusal) const {
  const auto found = sentences_.find(refusal.code);
  assert(found != sentences_.end());
  return filled(found->second, refusal);
}

}  // namespace benchwarden::forms
