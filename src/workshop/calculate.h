#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/clock.h"
#include "base/json.h"
#include "workshop/calculation_input.h"
#include "workshop/record.h"

namespace benchwarden::workshop {

/// One input or result, named for people, with its value for machines and its text.
struct CalculatedLine {
  std::string name;
  std::string label;
  std::string unit;
  calculations::Value value;
  std::string text;
  std::string given;  ///< an input as it was written; "" for results and defaults
};
struct Calculated {
  const forms::CalculationForm& form;
  std::vector<CalculatedLine> inputs;   ///< as understood, in the input's own unit
  std::vector<CalculatedLine> results;  ///< in the order in which they follow
  std::vector<std::string> steps;
  /// Of reports/rules/figures, in the place of inputs not given.
  std::vector<rules::Figure> figures;
};
/// A result, or every fault of the inputs at once, or kNotFound for an unknown name.
using CalculationOutcome = std::variant<Calculated, Faults, base::Error>;

CalculationOutcome calculate(const Definitions& definitions, base::CivilDate today,
                             std::string_view name, const InputTexts& given);

/// The inputs of a JSON object: numbers, texts, {"value", "unit"}, arrays of these. kInvalid for
/// anything else.
base::Result<InputTexts> input_texts(const base::Json& inputs);

base::Json calculated_json(const Definitions& definitions, const Calculated& calculated);
/// For a terminal: inputs as understood, steps, results, source, range, cautions.
std::string calculated_text(const Definitions& definitions, const Calculated& calculated);

/// Names, titles and inputs of all of them.
base::Json list_calculations(const Definitions& definitions);
/// One calculation and what its inputs take; "" when there is none of that name.
std::string describe_calculation(const Definitions& definitions, std::string_view name);

}  // namespace benchwarden::workshop
