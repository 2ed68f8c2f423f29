#include "workshop/finding_wording.h"

#include <utility>

#include "forms/shown.h"
#include "quantities/units.h"

namespace benchwarden::workshop {
namespace {

bool braces_match(std::string_view sentence) {
  bool open = false;
  for (const char sign : sentence) {
    if (sign == '{' ? open : (sign == '}' && !open)) return false;
    if (sign == '{') open = true;
    if (sign == '}') open = false;
  }
  return !open;
}

void read_texts(const base::Toml& table, const std::string& file,
                std::map<std::string, std::string, std::less<>>& texts, base::FileFaults& faults) {
  for (const auto& [key, value] : table.members) {
    if (value.type == base::Toml::Type::kTable) continue;
    if (value.type != base::Toml::Type::kText || value.text.empty()) {
      faults.push_back({file, value.line, "'" + key + "' needs words"});
    } else if (!braces_match(value.text)) {
      faults.push_back({file, value.line, "'" + key + "' has a brace without its other half"});
    } else {
      texts.emplace(key, value.text);
    }
  }
}

}  // namespace

base::Result<FindingWording, base::FileFaults> FindingWording::load(const base::DataFile& file) {
  const auto toml = base::parse_toml(file.bytes, file.path);
  if (!toml) return toml.error();
  FindingWording wording;
  base::FileFaults faults;
  read_texts(*toml, file.path, wording.sentences_, faults);
  const auto units = toml->members.find("units");
  if (units != toml->members.end()) read_texts(units->second, file.path, wording.units_, faults);
  if (!faults.empty()) return faults;
  return wording;
}

std::string FindingWording::shown(const findings::Shown& value, const ShownIn& shown_in) const {
  if (value.unit.empty()) return value.value;
  const quantities::Unit* unit = quantities::find_unit(value.unit);
  const auto span = units_.find(value.unit);
  std::string text =
      unit != nullptr ? forms::shown_amount(value.value, *unit)
                      : value.value + "\u00A0" + (span == units_.end() ? value.unit : span->second);
  // The number comes first, so that the first point is its own.
  const bool comma = shown_in.number_format == "comma";
  if (comma && value.value.find('.') != std::string::npos) text[text.find('.')] = ',';
  return text;
}

std::string FindingWording::sentence(std::string_view says, std::string_view name,
                                     const findings::Values& values,
                                     const ShownIn& shown_in) const {
  const auto found = sentences_.find(says);
  if (found == sentences_.end()) return std::string(says);
  const findings::Values told = in_site_units(values, shown_in);
  std::string filled;
  std::string_view rest = found->second;
  for (std::size_t open = rest.find('{'); open != std::string_view::npos; open = rest.find('{')) {
    const std::size_t close = rest.find('}', open);
    const std::string_view wanted = rest.substr(open + 1, close - open - 1);
    filled += rest.substr(0, open);
    rest = rest.substr(close + 1);
    std::string text = wanted == "name" ? std::string(name) : "{" + std::string(wanted) + "}";
    for (const auto& [key, value] : told) {
      if (key == wanted) text = shown(value, shown_in);
    }
    filled += text;
  }
  filled += rest;
  return filled;
}

}  // namespace benchwarden::workshop
