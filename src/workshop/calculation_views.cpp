#include "base/text.h"
#include "quantities/units.h"
#include "workshop/calculate.h"
#include "workshop/calculation_text.h"
#include "workshop/caution_views.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonNumber;
using base::JsonObject;

/// Unrounded: the shortest number that reads back as the same one.
Json number_json(double value) { return JsonNumber{plain_number(value)}; }

Json value_json(const calculations::Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return number_json(*number);
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  if (const auto* date = std::get_if<base::CivilDate>(&value)) return base::format_date(*date);
  JsonArray array;
  for (const double number : *std::get_if<std::vector<double>>(&value)) {
    array.push_back(number_json(number));
  }
  return array;
}

Json lines_json(const std::vector<CalculatedLine>& lines) {
  JsonArray array;
  for (const CalculatedLine& line : lines) {
    array.emplace_back(JsonObject{{"name", line.name},
                                  {"label", line.label},
                                  {"value", value_json(line.value)},
                                  {"unit", line.unit},
                                  {"text", line.text},
                                  {"given", line.given}});
  }
  return array;
}

Json figures_json(const std::vector<rules::Figure>& figures) {
  JsonArray array;
  for (const rules::Figure& figure : figures) {
    array.emplace_back(JsonObject{{"id", figure.id},
                                  {"value", JsonNumber{figure.value}},
                                  {"unit", figure.unit},
                                  {"citation", figure.citation}});
  }
  return array;
}

Json texts_json(const std::vector<std::string>& texts) {
  return JsonArray(texts.begin(), texts.end());
}

std::string with_unit(const CalculatedLine& line) {
  return line.unit.empty() ? line.text : line.text + " " + line.unit;
}

/// How the input was written, where that is not what it was understood as.
std::string as_given(const CalculatedLine& input) {
  if (input.given.empty()) return "  (not given)";
  const bool same = input.given == input.text || input.given == with_unit(input);
  const bool number = std::holds_alternative<double>(input.value);
  return same || !number ? "" : "  (" + input.given + ")";
}

void add_inputs(std::string& text, const std::vector<CalculatedLine>& inputs) {
  text += "Inputs as understood\n";
  for (const CalculatedLine& input : inputs) {
    text += "  " + input.label + ": " + with_unit(input) + as_given(input) + "\n";
  }
}

void add_results(std::string& text, const std::vector<CalculatedLine>& results) {
  text += "Results\n";
  for (const CalculatedLine& result : results) {
    text += "  " + result.label + ": " + with_unit(result) + "\n";
  }
}

void add_texts(std::string& text, const std::string& heading,
               const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  text += heading + "\n";
  for (const std::string& line : lines) text += "  " + line + "\n";
}

/// "oxygen-baseline, 20.9 %: its citation".
std::vector<std::string> figure_lines(const std::vector<rules::Figure>& figures) {
  std::vector<std::string> lines;
  for (const rules::Figure& figure : figures) {
    const quantities::Unit* unit = quantities::find_unit(figure.unit);
    lines.push_back(figure.id + ", " + figure.value + " " +
                    (unit == nullptr ? figure.unit : std::string(unit->symbol)) + ": " +
                    figure.citation);
  }
  return lines;
}

std::string example_line(const forms::CalculationForm& form) {
  std::string line = "benchwarden calculate " + form.name;
  for (const auto& [name, text] : form.example) {
    line.append(" '").append(name).append("=").append(text).append("'");
  }
  return line;
}

/// "number", "list", "date", "month" or "choice".
std::string_view type_word(const calculations::InputRule& rule) {
  switch (rule.type) {
    case calculations::ValueType::kNumber:
      return "number";
    case calculations::ValueType::kCode:
      return "choice";
    case calculations::ValueType::kDate:
      return rule.month ? "month" : "date";
    case calculations::ValueType::kList:
      break;
  }
  return "list";
}

/// The codes with their labels: words of the form, or the symbol of the unit that the code is.
JsonArray choices_json(const forms::CalculationInput& input, const calculations::InputRule& rule) {
  JsonArray choices;
  for (const std::string_view code : rule.codes) {
    choices.emplace_back(
        JsonObject{{"code", std::string(code)}, {"label", choice_label(input, code)}});
  }
  return choices;
}

/// What is taken when the input is not given; null when nothing is.
Json default_json(const Definitions& definitions, const forms::CalculationInput& input) {
  const rules::Figure* figure = definitions.figures.find(input.default_figure);
  const std::string text = figure == nullptr ? input.default_text : figure->value;
  return text.empty() ? Json(nullptr) : Json(text);
}

JsonObject input_json(const Definitions& definitions, const KnownCalculation& calculation,
                      const forms::CalculationInput& input) {
  const calculations::InputRule& rule = *find_rule(calculation.calculator, input.name);
  const Json by_default = default_json(definitions, input);
  JsonObject json{{"name", input.name},
                  {"label", input.label},
                  {"help", input.help},
                  {"unit", input.unit},
                  {"accepted", accepted_text(calculation, rule)},
                  {"type", std::string(type_word(rule))},
                  {"required", rule.required && by_default.string() == nullptr},
                  {"default", by_default},
                  {"choices", choices_json(input, rule)}};
  const bool list = rule.type == calculations::ValueType::kList;
  if (list || rule.type == calculations::ValueType::kNumber) {
    json.emplace_back("lowest", number_json(rule.low));
    json.emplace_back("highest", number_json(rule.high));
  }
  if (list) {
    json.emplace_back("fewest", static_cast<std::uint64_t>(rule.rows_min));
    json.emplace_back("most", static_cast<std::uint64_t>(rule.rows_max));
  }
  return json;
}

}  // namespace

Json calculated_json(const Definitions& definitions, const Calculated& calculated) {
  const forms::CalculationForm& form = calculated.form;
  return JsonObject{{"calculation", form.name},
                    {"title", form.title},
                    {"inputs", lines_json(calculated.inputs)},
                    {"results", lines_json(calculated.results)},
                    {"steps", texts_json(calculated.steps)},
                    {"figures", figures_json(calculated.figures)},
                    {"sources", texts_json(form.sources)},
                    {"valid_range", form.valid_range},
                    {"uncertainty", form.uncertainty},
                    {"cautions", cautions_json(definitions, form.cautions)}};
}

std::string calculated_text(const Definitions& definitions, const Calculated& calculated) {
  const forms::CalculationForm& form = calculated.form;
  std::string text = form.title + "\n";
  add_inputs(text, calculated.inputs);
  add_texts(text, "Steps", calculated.steps);
  add_results(text, calculated.results);
  add_texts(text, "Figures not given, from the rules", figure_lines(calculated.figures));
  add_texts(text, "Uncertainty", {form.uncertainty});
  add_texts(text, "Valid range", {form.valid_range});
  add_texts(text, "Source", form.sources);
  for (const std::string& id : form.cautions) {
    const reports::Caution* caution = definitions.reports.cautions.find(id);
    if (caution != nullptr) add_texts(text, "Caution: " + caution->title, caution->sentences);
  }
  return text;
}

Json list_calculations(const Definitions& definitions) {
  JsonArray all;
  for (const forms::CalculationForm& form : definitions.calculations.all()) {
    const KnownCalculation calculation{form, *calculations::find_calculator(form.name)};
    JsonArray inputs;
    for (const forms::CalculationInput& input : form.inputs) {
      inputs.emplace_back(input_json(definitions, calculation, input));
    }
    all.emplace_back(JsonObject{{"name", form.name},
                                {"title", form.title},
                                {"purpose", form.purpose},
                                {"inputs", std::move(inputs)}});
  }
  return JsonObject{{"calculations", std::move(all)}};
}

std::string describe_calculation(const Definitions& definitions, std::string_view name) {
  const forms::CalculationForm* form = definitions.calculations.find(name);
  if (form == nullptr) return "";
  const KnownCalculation calculation{*form, *calculations::find_calculator(name)};
  std::string text = form->title + "\n" + form->purpose + "\n\n";
  for (const forms::CalculationInput& input : form->inputs) {
    text += "  " + input.name + "  " + input.label + ": " +
            accepted_text(calculation, *find_rule(calculation.calculator, input.name));
    if (!input.default_text.empty()) text += "; " + input.default_text + " when not given";
    if (const auto* figure = definitions.figures.find(input.default_figure)) {
      text += "; " + figure->value + " when not given (" + figure->citation + ")";
    }
    text += "\n";
  }
  return text + "\nExample: " + example_line(*form) + "\n";
}

}  // namespace benchwarden::workshop
