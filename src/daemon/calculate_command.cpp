#include <iostream>

#include "base/zone.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/calculate.h"

namespace benchwarden::daemon {
namespace {

/// "name=value" of each argument; the first that is not so is an error.
base::Result<workshop::InputTexts> split_inputs(const std::vector<std::string>& arguments) {
  workshop::InputTexts texts;
  for (const std::string& argument : arguments) {
    const std::size_t equals = argument.find('=');
    if (equals == 0 || equals == std::string::npos) {
      return base::Error{base::ErrorCode::kInvalid,
                         "'" + argument + "': an input is written name=value"};
    }
    const auto added = texts.emplace(argument.substr(0, equals), argument.substr(equals + 1));
    if (!added.second) {
      return base::Error{base::ErrorCode::kInvalid, "'" + added.first->first + "' is given twice"};
    }
  }
  return texts;
}

void print_names(const workshop::Definitions& definitions) {
  for (const forms::CalculationForm& form : definitions.calculations.all()) {
    std::cout << form.name << "  " << form.title << "\n";
  }
}

Exit print_outcome(const workshop::Definitions& definitions,
                   const workshop::CalculationOutcome& outcome, bool json) {
  if (const auto* error = std::get_if<base::Error>(&outcome)) return fail(*error);
  if (const auto* faults = std::get_if<workshop::Faults>(&outcome)) {
    for (const workshop::Fault& fault : *faults)
      std::cerr << "benchwarden: " << fault.sentence << "\n";
    return Exit::kUsage;
  }
  const auto& calculated = std::get<workshop::Calculated>(outcome);
  std::cout << (json ? base::write_json(calculated_json(definitions, calculated)) + "\n"
                     : calculated_text(definitions, calculated));
  return Exit::kDone;
}

}  // namespace

Exit calculate(const Options& options, const CalculateOptions& wanted) {
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const workshop::Definitions& definitions = (*loaded)->definitions;
  if (wanted.name.empty()) {
    print_names(definitions);
    return Exit::kDone;
  }
  if (wanted.inputs.empty()) {
    const std::string text = workshop::describe_calculation(definitions, wanted.name);
    if (text.empty()) {
      return fail({base::ErrorCode::kNotFound, "there is no calculation '" + wanted.name + "'"});
    }
    std::cout << text;
    return Exit::kDone;
  }
  const auto inputs = split_inputs(wanted.inputs);
  if (!inputs) return fail(inputs.error());
  const base::CivilDate today = base::Zone::find("UTC")->date_of(SystemClock().now());
  return print_outcome(definitions, workshop::calculate(definitions, today, wanted.name, *inputs),
                       wanted.json);
}

}  // namespace benchwarden::daemon
