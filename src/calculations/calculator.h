#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"
#include "calculations/refusal.h"
#include "calculations/values.h"

namespace benchwarden::calculations {

/// One input of a calculation. A number, and each number of a list, lies in [low, high], in the
/// unit its name says; a list has `rows_min` to `rows_max` numbers; a code is one of `codes`.
struct InputRule {
  std::string_view name;
  ValueType type = ValueType::kNumber;
  double low = 0;
  double high = 0;
  std::vector<std::string_view> codes = {};
  unsigned rows_min = 1;
  unsigned rows_max = 1;
  bool required = true;
  bool month = false;  ///< of a date: a month stands for its first day
};

InputRule number_input(std::string_view name, double low, double high);
InputRule code_input(std::string_view name, std::vector<std::string_view> codes);
InputRule date_input(std::string_view name);
InputRule month_input(std::string_view name);
InputRule list_input(std::string_view name, double low, double high, unsigned rows_min,
                     unsigned rows_max);
/// The same input, which may be left out.
InputRule optional(InputRule rule);

/// A calculation that can be called by name. `run` gets checked inputs and answers with finite
/// values only, or refuses.
struct Calculator {
  std::string_view name;
  std::vector<InputRule> inputs;
  Outcome<Values> (*run)(const Inputs&);
};

/// nullptr when the calculation has no such input.
const InputRule* find_rule(const Calculator& calculator, std::string_view name);

/// Every fault of the inputs by the rules of the calculation, before it runs.
Refusals check_inputs(const Calculator& calculator,
                      const std::map<std::string, Value, std::less<>>& inputs);

/// Checks the inputs, all faults at once, and runs. A result that is not finite is refused
/// (kNoSolution), whatever the calculation did.
base::Result<Values, Refusals> calculate(const Calculator& calculator,
                                         std::map<std::string, Value, std::less<>> inputs);

/// All of them, sorted by name.
const std::vector<Calculator>& calculators();
const Calculator* find_calculator(std::string_view name);

}  // namespace benchwarden::calculations
