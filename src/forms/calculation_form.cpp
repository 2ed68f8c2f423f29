#include "forms/calculation_form.h"

#include <algorithm>
#include <utility>

#include "forms/read_field.h"

namespace benchwarden::forms {
namespace {

CalculationInput read_input(const base::Toml& toml, const std::string& file,
                            base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  CalculationInput input;
  input.name = reader.text("name");
  input.label = reader.text("label");
  input.help = reader.text_or("help", "");
  input.unit = reader.text_or("unit", "");
  input.convertible = quantities::find_unit(input.unit);
  if (input.convertible != nullptr) input.unit = input.convertible->symbol;
  input.always_absolute = reader.boolean_or("always_absolute", false);
  input.default_text = reader.text_or("default", "");
  input.default_figure = reader.text_or("default_figure", "");
  if (!input.default_text.empty() && !input.default_figure.empty()) {
    reader.fault("either default or default_figure");
  }
  input.choices = read_options("choices", reader, faults);
  reader.finish();
  return input;
}

CalculationResult read_result(const base::Toml& toml, const std::string& file,
                              base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  CalculationResult result;
  result.name = reader.text("name");
  result.label = reader.text("label");
  result.unit = reader.text_or("unit", "");
  const quantities::Unit* unit = quantities::find_unit(result.unit);
  if (unit != nullptr) result.unit = unit->symbol;
  result.digits = static_cast<int>(reader.integer_or("digits", result.digits));
  constexpr int kDigitsMax = 15;
  if (result.digits < 1 || result.digits > kDigitsMax) reader.fault("digits must be 1 to 15");
  result.choices = read_options("choices", reader, faults);
  reader.finish();
  return result;
}

void read_example(const base::TomlReader& reader, const base::Toml* toml, CalculationForm& form,
                  base::FileFaults& faults) {
  if (toml == nullptr) {
    faults.push_back({reader.file(), 0, "an example is needed"});
    return;
  }
  for (const auto& [name, value] : toml->members) {
    if (value.type == base::Toml::Type::kText) {
      form.example.emplace(name, value.text);
    } else {
      faults.push_back({reader.file(), value.line, "an example's values are texts"});
    }
  }
}

CalculationForm read_form(const base::Toml& toml, const std::string& file,
                          base::FileFaults& faults) {
  base::TomlReader reader(toml, file, faults);
  CalculationForm form;
  form.file = file;
  form.name = reader.text("name");
  form.title = reader.text("title");
  form.purpose = reader.text("purpose");
  for (const base::Toml* input : reader.tables("inputs")) {
    form.inputs.push_back(read_input(*input, file, faults));
  }
  for (const base::Toml* result : reader.tables("results")) {
    form.results.push_back(read_result(*result, file, faults));
  }
  form.steps = reader.texts("steps");
  form.sources = reader.texts("sources");
  form.valid_range = reader.text("valid_range");
  form.uncertainty = reader.text("uncertainty");
  form.cautions = reader.texts("cautions");
  read_example(reader, reader.table("example"), form, faults);
  if (form.sources.empty()) reader.fault("a source is needed");
  if (form.results.empty()) reader.fault("a result is needed");
  if (file != "forms/calculations/" + form.name + ".toml") reader.fault("the file's name differs");
  reader.finish();
  return form;
}

}  // namespace

const CalculationInput* find_input(const CalculationForm& form, std::string_view name) {
  const auto found =
      std::find_if(form.inputs.begin(), form.inputs.end(),
                   [&](const CalculationInput& input) { return input.name == name; });
  return found == form.inputs.end() ? nullptr : &*found;
}

base::Result<CalculationForms, base::FileFaults> CalculationForms::load(
    const base::DataFiles& files) {
  CalculationForms loaded;
  base::FileFaults faults;
  for (const base::DataFile& file : files) {
    const auto toml = base::parse_toml(file.bytes, file.path);
    if (toml) {
      loaded.forms_.push_back(read_form(*toml, file.path, faults));
    } else {
      faults.insert(faults.end(), toml.error().begin(), toml.error().end());
    }
  }
  if (!faults.empty()) return faults;
  std::sort(loaded.forms_.begin(), loaded.forms_.end(),
            [](const CalculationForm& a, const CalculationForm& b) { return a.name < b.name; });
  return loaded;
}

const CalculationForm* CalculationForms::find(std::string_view name) const {
  const auto found = std::find_if(forms_.begin(), forms_.end(),
                                  [&](const CalculationForm& form) { return form.name == name; });
  return found == forms_.end() ? nullptr : &*found;
}

}  // namespace benchwarden::forms
