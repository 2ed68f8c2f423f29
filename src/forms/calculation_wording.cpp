#include "forms/calculation_wording.h"

#include <cassert>

#include "base/text.h"

namespace benchwarden::forms {

base::Result<CalculationWording, base::FileFaults> CalculationWording::load(
    const base::DataFiles& files, const std::vector<std::string_view>& keys) {
  const std::string path = "forms/wording/calculations.toml";
  for (const base::DataFile& file : files) {
    if (file.path != path) continue;
    const auto toml = base::parse_toml(file.bytes, path);
    if (!toml) return toml.error();
    CalculationWording wording;
    base::FileFaults faults;
    base::TomlReader reader(*toml, path, faults);
    for (const std::string_view key : keys) {
      wording.sentences_.emplace(std::string(key), reader.text(key));
    }
    if (const base::Toml* quantities = reader.table("quantities")) {
      base::TomlReader labels(*quantities, path, faults);
      for (const auto& [name, label] : quantities->members) {
        wording.quantities_.emplace(name, labels.text(name));
      }
      labels.finish();
    }
    reader.finish();
    if (!faults.empty()) return faults;
    return wording;
  }
  return base::FileFaults{{path, 0, "the file is missing"}};
}

std::string CalculationWording::quantity(const std::string& name) const {
  const auto found = quantities_.find(name);
  return found == quantities_.end() ? name : found->second;
}

std::string CalculationWording::sentence(std::string_view key, const std::string& input,
                                         const std::string& value,
                                         const std::string& accepted) const {
  const auto found = sentences_.find(key);
  assert(found != sentences_.end());
  std::string text =
      base::fill(found->second, {{"input", input}, {"value", value}, {"accepted", accepted}});
  if (text.ends_with("..")) text.pop_back();  // "MPa abs." brings its own point
  return text;
}

}  // namespace benchwarden::forms
