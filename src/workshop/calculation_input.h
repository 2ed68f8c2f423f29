#pragma once

#include <functional>
#include <map>
#include <string>

#include "calculations/calculator.h"
#include "forms/calculation_form.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

/// Inputs as they were written, by name: "28 bar", "2026-11", "0; 1.2; 0; 0.8".
using InputTexts = std::map<std::string, std::string, std::less<>>;

/// A calculation that can be called: how it is shown, and what it does.
struct KnownCalculation {
  const forms::CalculationForm& form;
  const calculations::Calculator& calculator;
};

/// What was written for an input, or its default; "" when there is neither. `today` stands for a
/// default of that word.
std::string text_of_input(const KnownCalculation& calculation, const Definitions& definitions,
                          const InputTexts& given, std::string_view name, base::CivilDate today);

/// "0 … 350 bar": what an input takes.
std::string accepted_text(const KnownCalculation& calculation, const calculations::InputRule& rule);

/// " bar"; "" for an input without a unit.
std::string unit_suffix(const forms::CalculationInput& input);

/// Reads one input. Numbers may carry another unit of the same kind and come out in that of the
/// input. kInvalid when it cannot be read as what it should be: what was written, and why not.
base::Result<calculations::Value> read_input(const KnownCalculation& calculation,
                                             const calculations::InputRule& rule,
                                             const std::string& text);

}  // namespace benchwarden::workshop
