#include "workshop/calculation_input.h"

#include <algorithm>

#include "base/text.h"
#include "quantities/converted.h"
#include "quantities/read_amount.h"
#include "workshop/calculation_text.h"

namespace benchwarden::workshop {
namespace {

using calculations::InputRule;
using calculations::Value;
using calculations::ValueType;

const forms::CalculationInput& shown(const KnownCalculation& calculation, std::string_view name) {
  const auto& inputs = calculation.form.inputs;
  const auto found =
      std::find_if(inputs.begin(), inputs.end(),
                   [&](const forms::CalculationInput& input) { return input.name == name; });
  return *found;  // load_definitions refuses a form that lacks one
}

base::Result<double> read_number(const forms::CalculationInput& input, const std::string& text) {
  const auto amount = quantities::read_amount(text);
  if (!amount) return amount.error();
  if (amount->unit == nullptr) return amount->value;
  if (input.convertible == nullptr || input.convertible->dimension != amount->unit->dimension) {
    return base::Error{base::ErrorCode::kInvalid,
                       std::string(amount->unit->symbol) + " does not measure this"};
  }
  return quantities::converted(amount->value, *amount->unit, *input.convertible);
}

/// The parts of a list: between semicolons, or where there are none, between spaces.
std::vector<std::string> parts_of(const std::string& text) {
  const char separator = text.find(';') == std::string::npos ? ' ' : ';';
  std::vector<std::string> parts;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t to = std::min(text.find(separator, from), text.size());
    if (text.find_first_not_of(' ', from) < to) parts.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  return parts;
}

base::Result<Value> read_list(const forms::CalculationInput& input, const std::string& text) {
  std::vector<double> list;
  for (const std::string& part : parts_of(text)) {
    const auto number = read_number(input, part);
    if (!number) return number.error();
    list.push_back(*number);
  }
  return Value(std::move(list));
}

/// A day, or a month for its first day.
base::Result<Value> read_date(const std::string& text) {
  if (const auto month = base::parse_month(text)) return Value(base::first_day(*month));
  const auto date = base::parse_date(text);
  if (!date) return date.error();
  return Value(*date);
}

/// A code input without words of its own names a unit, in any of its spellings.
std::string code_of(const forms::CalculationInput& input, const std::string& text) {
  const quantities::Unit* unit =
      input.choices.empty() ? quantities::unit_as_written(text) : nullptr;
  return unit == nullptr ? text : std::string(unit->id);
}

}  // namespace

std::string text_of_input(const KnownCalculation& calculation, const Definitions& definitions,
                          const InputTexts& given, std::string_view name, base::CivilDate today) {
  const auto found = given.find(name);
  if (found != given.end()) return found->second;
  const forms::CalculationInput& input = shown(calculation, name);
  if (!input.default_figure.empty()) {
    const rules::Figure* figure = definitions.figures.find(input.default_figure);
    return figure == nullptr ? "" : figure->value;  // load_definitions refuses an unknown figure
  }
  return input.default_text == "today" ? base::format_date(today) : input.default_text;
}

std::string unit_suffix(const forms::CalculationInput& input) {
  return input.unit.empty() ? "" : " " + input.unit;
}

std::string accepted_text(const KnownCalculation& calculation, const InputRule& rule) {
  const forms::CalculationInput& input = shown(calculation, rule.name);
  std::string range = plain_number(rule.low) + " … " + plain_number(rule.high) + unit_suffix(input);
  switch (rule.type) {
    case ValueType::kNumber:
      return range;
    case ValueType::kDate:
      return "a day such as 2026-11-25, or a month such as 2026-11";
    case ValueType::kCode: {
      std::vector<std::string> codes(rule.codes.begin(), rule.codes.end());
      return base::join(codes, ", ");
    }
    case ValueType::kList:
      break;
  }
  return std::to_string(rule.rows_min) + " to " + std::to_string(rule.rows_max) +
         " numbers, each " + range;
}

base::Result<Value> read_input(const KnownCalculation& calculation, const InputRule& rule,
                               const std::string& text) {
  const forms::CalculationInput& input = shown(calculation, rule.name);
  switch (rule.type) {
    case ValueType::kCode:
      return Value(code_of(input, text));
    case ValueType::kDate:
      return read_date(text);
    case ValueType::kList:
      return read_list(input, text);
    case ValueType::kNumber:
      break;
  }
  const auto number = read_number(input, text);
  if (!number) return number.error();
  return Value(*number);
}

}  // namespace benchwarden::workshop
