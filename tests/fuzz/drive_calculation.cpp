#include "fuzz/drive_calculation.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/json.h"
#include "fuzz/edited_file.h"
#include "workshop/calculate.h"

namespace benchwarden::fuzz {
namespace {

const std::vector<std::string>& all_calculations() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const auto& one : calculations::calculators()) all.emplace_back(one.name);
    return all;
  }();
  return names;
}

workshop::InputTexts inputs_of(const std::vector<std::string>& lines) {
  workshop::InputTexts inputs;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const std::size_t equals = std::min(lines[i].find('='), lines[i].size());
    if (equals == lines[i].size()) continue;
    inputs.emplace(lines[i].substr(0, equals), lines[i].substr(equals + 1));
  }
  return inputs;
}

bool finite(const calculations::Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return std::isfinite(*number);
  const auto* list = std::get_if<std::vector<double>>(&value);
  return list == nullptr ||
         std::all_of(list->begin(), list->end(), [](double one) { return std::isfinite(one); });
}

std::string fault_of(const workshop::Definitions& definitions,
                     const workshop::Calculated& calculated) {
  for (const auto* lines : {&calculated.inputs, &calculated.results}) {
    for (const workshop::CalculatedLine& line : *lines) {
      if (!finite(line.value)) return line.name + " is not finite";
      if (line.text.empty()) return line.name + " has no text";
    }
  }
  if (calculated.results.empty()) return "no results";
  if (calculated_text(definitions, calculated).empty()) return "no text";
  const auto json = base::parse_json(base::write_json(calculated_json(definitions, calculated)));
  return json ? "" : "the JSON cannot be read: " + json.error().detail;
}

std::string fault_of(const workshop::Faults& faults) {
  if (faults.empty()) return "refused without a reason";
  for (const workshop::Fault& fault : faults) {
    if (!fault.pointer.starts_with("/inputs")) return "points to " + fault.pointer;
    const std::string& sentence = fault.sentence;
    if (fault.code == "unknown_input") continue;
    const std::string label = sentence.substr(0, sentence.find_first_of(":'"));
    if (label.empty() || label.find_first_of("_{") != std::string::npos) return sentence;
  }
  return "";
}

}  // namespace

Driven drive_calculation(const workshop::Definitions& definitions, std::string_view text) {
  const std::vector<std::string> lines = lines_of(text);
  Driven driven{chosen_name(text, all_calculations()), false, ""};
  const auto outcome =
      workshop::calculate(definitions, {2026, 11, 25}, driven.calculation, inputs_of(lines));
  if (const auto* calculated = std::get_if<workshop::Calculated>(&outcome)) {
    driven.answered = true;
    driven.fault = fault_of(definitions, *calculated);
  } else if (const auto* faults = std::get_if<workshop::Faults>(&outcome)) {
    driven.fault = fault_of(*faults);
  } else {
    driven.fault = "not found";
  }
  return driven;
}

}  // namespace benchwarden::fuzz
