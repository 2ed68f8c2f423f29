#include "forms/shown.h"

#include <algorithm>
#include <cassert>
#include <string_view>

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

/// The whole digits in threes; places stay together.
std::string grouped(std::string_view number) {
  const std::size_t first = number.starts_with('-') ? 1 : 0;
  const std::size_t point = std::min(number.find('.'), number.size());
  return std::string(number.substr(0, first)) +
         base::grouped_digits(number.substr(first, point - first)) +
         std::string(number.substr(point));
}

}  // namespace

entries::RefusalCode no_number(const base::Json& value) {
  return value.string() != nullptr ? entries::RefusalCode::kTextForNumber
                                   : entries::RefusalCode::kNotANumber;
}

std::string shown_value(const base::Json& value) {
  if (const std::string* text = value.string()) return cut(*text);
  return cut(base::write_json(value));
}

std::string shown_amount(base::Decimal value, const quantities::Unit& unit) {
  return shown_amount(base::format_decimal(value), unit);
}

std::string shown_amount(std::string_view number, const quantities::Unit& unit) {
  std::string text = grouped(number);
  if (!unit.symbol.empty()) text += "\u00A0" + std::string(unit.symbol);
  return text;
}

std::string shown_band(const Band& band, const quantities::Unit& unit) {
  return grouped(base::format_decimal(band.lowest)) + " … " + shown_amount(band.highest, unit);
}

std::string shown_number(base::Decimal value) { return grouped(base::format_decimal(value)); }

std::string shown_conditions(const Conditions& conditions,
                             const std::vector<FieldDefinition>& fields) {
  std::vector<std::string> parts;
  for (const Condition& condition : conditions) {
    const FieldDefinition* field = find_field(fields, condition.field);
    assert(field != nullptr);  // the catalog checked the conditions
    std::vector<std::string> labels;
    for (const CodeOption& option : field->options) {
      const auto& codes = condition.codes;
      const bool named = std::find(codes.begin(), codes.end(), option.code) != codes.end();
      if (named) labels.push_back(option.label);
    }
    parts.push_back(field->label + " = " + base::join(labels, ", "));
  }
  return base::join(parts, "; ");
}

std::string shown_labels(const std::vector<std::string>& names,
                         const std::vector<FieldDefinition>& fields) {
  std::vector<std::string> labels;
  for (const FieldDefinition& field : fields) {
    const bool named = std::find(names.begin(), names.end(), field.name) != names.end();
    if (named) labels.push_back(field.label);
  }
  return base::join(labels, ", ");
}

std::string shown_names(const std::vector<FieldDefinition>& fields) {
  std::vector<std::string> names;
  for (const FieldDefinition& field : fields) names.push_back(field.name);
  return base::join(names, ", ");
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
      return "1 … " + std::to_string(field.rows_max) + " {rows}";
    case entries::FieldType::kText:
      if (field.format != TextFormat::kAny) return std::string(text_format_shape(field.format));
      return shown_length(field.length_max);
  }
  return "";
}

std::string shown_length(std::size_t max) { return "1 … " + std::to_string(max) + " {characters}"; }

}  // namespace benchwarden::forms
