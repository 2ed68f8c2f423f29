#include "calculations/calculator.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace benchwarden::calculations {
namespace {

void check_number(const InputRule& rule, double value, Refusals& refusals) {
  const auto fits = within(std::string(rule.name), value, rule.low, rule.high);
  if (!fits) refusals.push_back(fits.error());
}

void check_list(const InputRule& rule, const std::vector<double>& list, Refusals& refusals) {
  const auto rows = static_cast<double>(list.size());
  const Refusal counted{RefusalCode::kTooFew, std::string(rule.name), rows,
                        static_cast<double>(rule.rows_min), static_cast<double>(rule.rows_max)};
  if (list.size() < rule.rows_min) refusals.push_back(counted);
  if (list.size() > rule.rows_max) {
    refusals.push_back(counted);
    refusals.back().code = RefusalCode::kTooMany;
  }
  for (const double value : list) {
    const auto fits = within(std::string(rule.name), value, rule.low, rule.high);
    if (fits) continue;
    refusals.push_back(fits.error());
    return;  // the first bad number of a list stands for the others
  }
}

void check_value(const InputRule& rule, const Value& value, Refusals& refusals) {
  if (value.index() != static_cast<std::size_t>(rule.type)) {
    refusals.push_back({RefusalCode::kWrongType, std::string(rule.name)});
  } else if (const auto* number = std::get_if<double>(&value)) {
    check_number(rule, *number, refusals);
  } else if (const auto* list = std::get_if<std::vector<double>>(&value)) {
    check_list(rule, *list, refusals);
  } else if (const auto* code = std::get_if<std::string>(&value)) {
    if (std::find(rule.codes.begin(), rule.codes.end(), *code) == rule.codes.end()) {
      refusals.push_back({RefusalCode::kUnknownCode, std::string(rule.name)});
    }
  }
}

bool finite(const Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return std::isfinite(*number);
  const auto* list = std::get_if<std::vector<double>>(&value);
  return list == nullptr || std::all_of(list->begin(), list->end(),
                                        [](double number) { return std::isfinite(number); });
}

}  // namespace

InputRule number_input(std::string_view name, double low, double high) {
  return {name, ValueType::kNumber, low, high};
}
InputRule code_input(std::string_view name, std::vector<std::string_view> codes) {
  return {name, ValueType::kCode, 0, 0, std::move(codes)};
}
InputRule date_input(std::string_view name) { return {name, ValueType::kDate}; }
InputRule month_input(std::string_view name) {
  InputRule rule = date_input(name);
  rule.month = true;
  return rule;
}
InputRule list_input(std::string_view name, double low, double high, unsigned rows_min,
                     unsigned rows_max) {
  return {name, ValueType::kList, low, high, {}, rows_min, rows_max};
}
InputRule optional(InputRule rule) {
  rule.required = false;
  return rule;
}

Refusals check_inputs(const Calculator& calculator,
                      const std::map<std::string, Value, std::less<>>& inputs) {
  Refusals refusals;
  for (const InputRule& rule : calculator.inputs) {
    const auto found = inputs.find(rule.name);
    if (found != inputs.end()) {
      check_value(rule, found->second, refusals);
    } else if (rule.required) {
      refusals.push_back({RefusalCode::kMissing, std::string(rule.name)});
    }
  }
  for (const auto& [name, value] : inputs) {
    if (find_rule(calculator, name) == nullptr) {
      refusals.push_back({RefusalCode::kUnknownInput, name});
    }
  }
  return refusals;
}

base::Result<Values, Refusals> calculate(const Calculator& calculator,
                                         std::map<std::string, Value, std::less<>> inputs) {
  Refusals refusals = check_inputs(calculator, inputs);
  if (!refusals.empty()) return refusals;
  auto outcome = calculator.run(Inputs(std::move(inputs)));
  if (!outcome) return Refusals{outcome.error()};
  for (const NamedValue& result : *outcome) {
    if (!finite(result.value)) return Refusals{{RefusalCode::kNoSolution, result.name}};
  }
  return *std::move(outcome);
}

const InputRule* find_rule(const Calculator& calculator, std::string_view name) {
  const auto found = std::find_if(calculator.inputs.begin(), calculator.inputs.end(),
                                  [&](const InputRule& rule) { return rule.name == name; });
  return found == calculator.inputs.end() ? nullptr : &*found;
}

const Calculator* find_calculator(std::string_view name) {
  const std::vector<Calculator>& all = calculators();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Calculator& calculator) {
    return calculator.name == name;
  });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace benchwarden::calculations
