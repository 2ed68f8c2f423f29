#include "workshop/calculation_input.h"

#include <algorithm>
#include <cassert>

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
  const forms::CalculationInput* input = find_input(calculation.form, name);
  assert(input != nullptr);  // load_definitions refuses a form that lacks one
  return *input;
}

/// What was written, for a sentence, and why it cannot be read.
base::Error unreadable(const std::string& text, const std::string& why) {
  return {base::ErrorCode::kInvalid, "'" + shortened(text) + "' " + why};
}

/// The number alone, where the unit that the input prints follows it and is no unit of the table.
std::string without_printed_unit(const forms::CalculationInput& input, const std::string& text) {
  const std::string trimmed = text.substr(0, text.find_last_not_of(' ') + 1);
  const bool printed =
      input.convertible == nullptr && !input.unit.empty() && trimmed.ends_with(input.unit);
  return printed ? trimmed.substr(0, trimmed.size() - input.unit.size()) : text;
}

/// The unit as this input takes it; nullptr when it measures something else.
const quantities::Unit* unit_for(const forms::CalculationInput& input,
                                 const quantities::Unit& unit) {
  if (input.convertible == nullptr) return nullptr;
  if (unit.dimension == input.convertible->dimension) return &unit;
  const bool gauge = unit.dimension == quantities::Dimension::kGaugePressure;
  return input.always_absolute && gauge ? quantities::find_unit(std::string(unit.id) + "_abs")
                                        : nullptr;
}

base::Result<double> read_number(const forms::CalculationInput& input, const std::string& text) {
  const auto amount = quantities::read_amount(without_printed_unit(input, text));
  if (!amount) return unreadable(text, amount.error().detail);
  if (amount->unit == nullptr) return amount->value;
  const quantities::Unit* unit = unit_for(input, *amount->unit);
  if (unit == nullptr) {
    return unreadable(text, "has the unit " + std::string(amount->unit->symbol) +
                                ", which measures another kind");
  }
  return quantities::converted(amount->value, *unit, *input.convertible);
}

/// The parts of a list: between semicolons, or where there are numbers alone, between spaces.
/// "3750 psi" is one part.
std::vector<std::string> parts_of(const std::string& text) {
  const bool numbers = text.find_first_not_of("0123456789+-.,eE ") == std::string::npos;
  const char separator = numbers ? ' ' : ';';
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

base::Result<Value> read_date(const InputRule& rule, const std::string& text) {
  const auto month = base::parse_month(text);
  if (month && rule.month) return Value(base::first_day(*month));
  const auto date = base::parse_date(text);
  if (!date) return unreadable(text, month ? "is a month, not a day" : "is no day of the calendar");
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
      return rule.month ? "a month such as 2026-11, or a day of it" : "a day such as 2026-11-25";
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
      return read_date(rule, text);
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
