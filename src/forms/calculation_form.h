#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "forms/definition.h"
#include "quantities/units.h"

namespace benchwarden::forms {

/// One input of a calculation for people. What may stand in it, the calculation itself knows.
struct CalculationInput {
  std::string name;
  std::string label;
  std::string help;
  std::string unit;  ///< as shown; "" for codes, dates and pure numbers
  const quantities::Unit* convertible = nullptr;  ///< set when other units of its kind are taken
  /// Units of gauge pressure are taken for absolute ones: nobody measures this with a gauge.
  bool always_absolute = false;
  std::string default_text;    ///< "" when there is none
  std::string default_figure;  ///< a figure of reports/rules/figures instead
  std::vector<CodeOption> choices;
};

/// One number, word or day that comes out.
struct CalculationResult {
  std::string name;
  std::string label;
  std::string unit;
  int digits = 6;  ///< significant ones, as printed; the answer for machines is not rounded
  std::vector<CodeOption> choices;
};

/// How a calculation is shown: forms/calculations/<name>.toml.
struct CalculationForm {
  std::string file;
  std::string name;
  std::string title;
  std::string purpose;
  std::vector<CalculationInput> inputs;
  std::vector<CalculationResult> results;
  /// Sentences with {name} for an input or result. One whose name has no value is left out.
  std::vector<std::string> steps;
  std::vector<std::string> sources;
  std::string valid_range;
  std::string uncertainty;
  std::vector<std::string> cautions;
  /// A set of inputs with a result, for the help and for the tests.
  std::map<std::string, std::string, std::less<>> example;
};

/// nullptr when the form has no such input.
const CalculationInput* find_input(const CalculationForm& form, std::string_view name);

/// All of forms/calculations, sorted by name.
class CalculationForms {
 public:
  /// Every fault of every file at once.
  static base::Result<CalculationForms, base::FileFaults> load(const base::DataFiles& files);

  [[nodiscard]] const std::vector<CalculationForm>& all() const { return forms_; }
  [[nodiscard]] const CalculationForm* find(std::string_view name) const;

 private:
  CalculationForms() = default;
  std::vector<CalculationForm> forms_;
};

}  // namespace benchwarden::forms
