#include "forms/shown.h"

#include "base/text.h"

namespace benchwarden::forms {
namespace {

constexpr std::size_t kShownMax = 60;

/// At most `kShownMax` code points of valid UTF-8.
std::string cut(std::string text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool starts_code_point = (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U;
    if (starts_code_point && count++ == kShownMax) return text.substr(0, at) + "…";
  }
  return text;
}

}  // namespace

std::string shown_value(const base::Json& value) {
  if (const std::string* text = value.string()) return cut(*text);
  return cut(base::write_json(value));
}

std::string shown_band(const Band& band, const quantities::Unit& unit) {
  std::string text = base::format_decimal(band.lowest) + " … " + base::format_decimal(band.highest);
  if (!unit.symbol.empty()) text += " " + std::string(unit.symbol);
  return text;
}

std::string shown_conditions(const Conditions& conditions) {
  std::vector<std::string> parts;
  for (const Condition& condition : conditions) {
    parts.push_back(condition.field + " = " + base::join(condition.codes, ", "));
  }
  return base::join(parts, "; ");
}

std::string shown_accepted(const FieldDefinition& field) {
  switch (field.type) {
    case entries::FieldType::kQuantity:
      return shown_band(field.possible, *field.unit);
    case entries::FieldType::kCode:
      return list_codes(field);
    case entries::FieldType::kDate:
      return "YYYY-MM-DD";
    case entries::FieldType::kId:
      return "a-z 0-9 -, 1 … 40";
    case entries::FieldType::kList:
      return "1 … " + std::to_string(field.rows_max);
    case entries::FieldType::kText:
      if (field.format != TextFormat::kAny) return std::string(text_format_shape(field.format));
      return "1 … " + std::to_string(field.length_max);
  }
  return "";
}

}  // namespace benchwarden::forms
