#include "workshop/check_calculations.h"

#include <algorithm>

#include "calculations/calculator.h"
#include "quantities/units.h"
#include "workshop/calculation_text.h"

namespace benchwarden::workshop {
namespace {

using calculations::Calculator;
using calculations::InputRule;
using forms::CalculationForm;
using forms::CalculationInput;

void check_input(const CalculationForm& form, const CalculationInput& input,
                 const Calculator& calculator, const rules::Figures& figures,
                 base::FileFaults& faults) {
  const auto fault = [&](const std::string& what) {
    faults.push_back({form.file, 0, "input '" + input.name + "': " + what});
  };
  const InputRule* rule = find_rule(calculator, input.name);
  if (rule == nullptr) return fault("the calculation has no such input");
  for (const forms::CodeOption& choice : input.choices) {
    if (std::find(rule->codes.begin(), rule->codes.end(), choice.code) == rule->codes.end()) {
      fault("the calculation has no choice '" + choice.code + "'");
    }
  }
  for (const std::string_view code : rule->codes) {
    if (quantities::find_unit(code) == nullptr && choice_label(input, code).empty()) {
      fault("the choice '" + std::string(code) + "' has no label");
    }
  }
  if (!input.default_figure.empty() && figures.find(input.default_figure) == nullptr) {
    fault("there is no figure '" + input.default_figure + "' in reports/rules/figures");
  }
}

void check_form(const CalculationForm& form, const reports::Cautions& cautions,
                const rules::Figures& figures, base::FileFaults& faults) {
  const Calculator* calculator = calculations::find_calculator(form.name);
  if (calculator == nullptr) {
    faults.push_back({form.file, 0, "the program has no such calculation"});
    return;
  }
  for (const CalculationInput& input : form.inputs) {
    check_input(form, input, *calculator, figures, faults);
  }
  for (const InputRule& rule : calculator->inputs) {
    const auto listed =
        std::count_if(form.inputs.begin(), form.inputs.end(),
                      [&](const CalculationInput& input) { return input.name == rule.name; });
    if (listed == 1) continue;
    faults.push_back(
        {form.file, 0, "the input '" + std::string(rule.name) + "' must be listed once"});
  }
  for (const std::string& id : form.cautions) {
    if (cautions.find(id) == nullptr) {
      faults.push_back({form.file, 0, "there is no caution '" + id + "' in reports/cautions"});
    }
  }
}

}  // namespace

void check_calculations(const forms::CalculationForms& forms, const reports::Cautions& cautions,
                        const rules::Figures& figures, base::FileFaults& faults) {
  for (const CalculationForm& form : forms.all()) check_form(form, cautions, figures, faults);
  for (const Calculator& calculator : calculations::calculators()) {
    if (forms.find(calculator.name) == nullptr) {
      faults.push_back(
          {"forms/calculations/" + std::string(calculator.name) + ".toml", 0, "is missing"});
    }
  }
}

}  // namespace benchwarden::workshop
