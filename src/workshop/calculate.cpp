#include "workshop/calculate.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "workshop/calculation_text.h"

namespace benchwarden::workshop {
namespace {

using calculations::InputRule;
using calculations::Refusal;
using calculations::RefusalCode;
using calculations::Value;

/// Inputs that came in another unit have no end of digits.
constexpr int kInputDigits = 10;

std::string names_of_inputs(const forms::CalculationForm& form) {
  std::vector<std::string> names;
  for (const forms::CalculationInput& input : form.inputs) names.push_back(input.name);
  return base::join(names, ", ");
}

/// What would be accepted in the place of what was refused.
std::string accepted_instead(const KnownCalculation& calculation, const InputRule* rule,
                             const Refusal& refusal) {
  if (refusal.code == RefusalCode::kUnknownInput) return names_of_inputs(calculation.form);
  if (refusal.code == RefusalCode::kUnequalLists) return plain_number(refusal.low) + " values";
  // Ends that are worked out have no end of digits.
  const auto end = [](double value) { return value_text(value, kInputDigits, {}); };
  std::string range = end(refusal.low) + " … " + end(refusal.high);
  if (rule == nullptr) return range;
  if (refusal.code == RefusalCode::kOutOfRange || refusal.code == RefusalCode::kContradicts) {
    return range + unit_suffix(*find_input(calculation.form, refusal.name));
  }
  return accepted_text(calculation, *rule);
}

/// The label of an input, of a result, or of what is worked out on the way.
std::string label_of(const forms::CalculationForm& form, const forms::CalculationWording& wording,
                     const std::string& name) {
  if (const auto* input = find_input(form, name)) return input->label;
  for (const forms::CalculationResult& result : form.results) {
    if (result.name == name) return result.label;
  }
  return wording.quantity(name);
}

/// What was refused: as it was written, or the number of values, or the one value of a list.
std::string refused_value(const InputRule* rule, const Refusal& refusal, const std::string& given) {
  switch (refusal.code) {
    case RefusalCode::kUnknownInput:
      return shortened(refusal.name);
    case RefusalCode::kTooFew:
    case RefusalCode::kTooMany:
    case RefusalCode::kUnequalLists:
      return plain_number(refusal.value);
    case RefusalCode::kWrongType:
      return given;  // with the reason, as read_input has it
    default:
      break;
  }
  const bool of_list = rule != nullptr && rule->type == calculations::ValueType::kList &&
                       refusal.code == RefusalCode::kOutOfRange;
  return given.empty() || of_list ? plain_number(refusal.value) : shortened(given);
}

Fault fault_of(const KnownCalculation& calculation, const Definitions& definitions,
               const Refusal& refusal, const std::string& given) {
  const InputRule* rule = find_rule(calculation.calculator, refusal.name);
  const forms::CalculationWording& wording = definitions.calculation_wording;
  const bool about_input = rule != nullptr || refusal.code == RefusalCode::kUnknownInput;
  const std::string key(calculations::refusal_key(refusal.code));
  return {about_input ? "/inputs/" + base::pointer_token(refusal.name) : "/inputs", key,
          wording.sentence(key, label_of(calculation.form, wording, refusal.name),
                           refused_value(rule, refusal, given),
                           accepted_instead(calculation, rule, refusal))};
}

/// One input brings one fault: what could not be read is not missing too.
void add(Faults& faults, Fault fault) {
  const bool known = std::any_of(faults.begin(), faults.end(),
                                 [&](const Fault& one) { return one.pointer == fault.pointer; });
  if (!known) faults.push_back(std::move(fault));
}

/// The inputs read, with what could not be read.
struct ReadInputs {
  std::map<std::string, Value, std::less<>> values;
  Faults faults;
};

ReadInputs read_inputs(const KnownCalculation& calculation, const Definitions& definitions,
                       base::CivilDate today, const InputTexts& given) {
  ReadInputs read;
  for (const InputRule& rule : calculation.calculator.inputs) {
    const std::string text = text_of_input(calculation, definitions, given, rule.name, today);
    if (text.empty()) continue;
    auto value = read_input(calculation, rule, text);
    if (value) {
      read.values.emplace(rule.name, *std::move(value));
    } else {
      read.faults.push_back(fault_of(calculation, definitions,
                                     {RefusalCode::kWrongType, std::string(rule.name)},
                                     value.error().detail));
    }
  }
  for (const auto& [name, text] : given) {
    if (find_rule(calculation.calculator, name) != nullptr) continue;
    read.faults.push_back(
        fault_of(calculation, definitions, {RefusalCode::kUnknownInput, name}, text));
  }
  return read;
}

std::vector<CalculatedLine> input_lines(const forms::CalculationForm& form,
                                        const std::map<std::string, Value, std::less<>>& values,
                                        const InputTexts& given) {
  std::vector<CalculatedLine> lines;
  for (const forms::CalculationInput& input : form.inputs) {
    const auto found = values.find(input.name);
    if (found == values.end()) continue;
    const auto written = given.find(input.name);
    lines.push_back({input.name, input.label, input.unit, found->second,
                     value_text(found->second, kInputDigits, input.choices),
                     written == given.end() ? "" : written->second});
  }
  return lines;
}

std::vector<CalculatedLine> result_lines(const forms::CalculationForm& form,
                                         const calculations::Values& values) {
  std::vector<CalculatedLine> lines;
  for (const calculations::NamedValue& value : values) {
    const auto found = std::find_if(
        form.results.begin(), form.results.end(),
        [&](const forms::CalculationResult& result) { return result.name == value.name; });
    if (found == form.results.end()) continue;  // a test holds every result to its form
    lines.push_back({value.name, found->label, found->unit, value.value,
                     value_text(value.value, found->digits, found->choices), ""});
  }
  return lines;
}

/// The figures that stand for inputs which were not given.
std::vector<rules::Figure> figures_used(const Definitions& definitions,
                                        const forms::CalculationForm& form,
                                        const InputTexts& given) {
  std::vector<rules::Figure> used;
  for (const forms::CalculationInput& input : form.inputs) {
    const rules::Figure* figure = definitions.figures.find(input.default_figure);
    if (figure != nullptr && !given.contains(input.name)) used.push_back(*figure);
  }
  return used;
}

/// The steps whose every place has a value.
std::vector<std::string> steps_of(const Calculated& calculated) {
  std::vector<std::pair<std::string_view, std::string>> texts;
  for (const auto* lines : {&calculated.inputs, &calculated.results}) {
    for (const CalculatedLine& line : *lines) texts.emplace_back(line.name, line.text);
  }
  std::vector<std::string> steps;
  for (const std::string& step : calculated.form.steps) {
    std::string filled = base::fill(step, texts);
    if (filled.find('{') == std::string::npos) steps.push_back(std::move(filled));
  }
  return steps;
}

}  // namespace

CalculationOutcome calculate(const Definitions& definitions, base::CivilDate today,
                             std::string_view name, const InputTexts& given) {
  const forms::CalculationForm* form = definitions.calculations.find(name);
  const calculations::Calculator* calculator = calculations::find_calculator(name);
  if (form == nullptr || calculator == nullptr) {
    return base::Error{base::ErrorCode::kNotFound,
                       "there is no calculation '" + std::string(name) + "'"};
  }
  const KnownCalculation calculation{*form, *calculator};
  ReadInputs read = read_inputs(calculation, definitions, today, given);
  const auto add_refusals = [&](const calculations::Refusals& refusals) {
    for (const Refusal& refusal : refusals) {
      const bool input = find_rule(calculation.calculator, refusal.name) != nullptr;
      add(read.faults,
          fault_of(
              calculation, definitions, refusal,
              input ? text_of_input(calculation, definitions, given, refusal.name, today) : ""));
    }
  };
  if (!read.faults.empty()) {
    add_refusals(calculations::check_inputs(*calculator, read.values));
    return read.faults;
  }
  const auto values = calculations::calculate(*calculator, read.values);
  if (!values) {
    add_refusals(values.error());
    return read.faults;
  }
  Calculated calculated{*form,
                        input_lines(*form, read.values, given),
                        result_lines(*form, *values),
                        {},
                        figures_used(definitions, *form, given)};
  calculated.steps = steps_of(calculated);
  return calculated;
}

}  // namespace benchwarden::workshop
