// Every form of forms/calculations against the calculation it shows.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <set>

#include "workshop/calculate.h"
#include "workshop/project_files.h"

namespace benchwarden::workshop {
namespace {

using ::testing::HasSubstr;
using ::testing::IsSupersetOf;

constexpr base::CivilDate kFilledInOn{2026, 11, 25};

const std::vector<forms::CalculationForm>& all_forms() {
  return real_definitions().calculations.all();
}

/// The result of a calculation; the test fails with the first fault instead.
Calculated calculated(std::string_view name, const InputTexts& inputs) {
  auto outcome = calculate(real_definitions(), kFilledInOn, name, inputs);
  if (const auto* faults = std::get_if<Faults>(&outcome)) {
    ADD_FAILURE() << name << ": " << faults->front().sentence;
  } else if (const auto* error = std::get_if<base::Error>(&outcome)) {
    ADD_FAILURE() << error->detail;
  } else {
    return std::get<Calculated>(std::move(outcome));
  }
  return {all_forms().front(), {}, {}, {}, {}};
}

std::set<std::string> placeholders(const std::string& step) {
  static const std::regex kPlace("\\{([^}]*)\\}");
  std::set<std::string> names;
  for (std::sregex_iterator found(step.begin(), step.end(), kPlace), end; found != end; ++found) {
    names.insert((*found)[1]);
  }
  return names;
}

/// Inputs that take a calculation down the ways its example leaves out.
const std::map<std::string, std::vector<InputTexts>>& other_ways() {
  static const std::map<std::string, std::vector<InputTexts>> ways{
      {"gauge-check", {{{"as_left_bar", "0; 10; 20; 30; 40"}}}},
      {"gauge-drift", {{{"first_date", "2020-01-15"}}}},
      {"oxygen-after-release", {{{"gauge_pressure_bar", "150"}}}},
  };
  return ways;
}

/// The example, and the example with other inputs in place of its own.
std::vector<Calculated> runs_of(const forms::CalculationForm& form) {
  std::vector<Calculated> runs{calculated(form.name, form.example)};
  const auto found = other_ways().find(form.name);
  if (found == other_ways().end()) return runs;
  for (const InputTexts& more : found->second) {
    InputTexts inputs = form.example;
    for (const auto& [name, text] : more) inputs.insert_or_assign(name, text);
    runs.push_back(calculated(form.name, inputs));
  }
  return runs;
}

TEST(CalculationForms, EveryCalculationHasOneAndItsExampleRuns) {
  EXPECT_EQ(all_forms().size(), calculations::calculators().size());
  for (const forms::CalculationForm& form : all_forms()) {
    EXPECT_FALSE(calculated(form.name, form.example).results.empty()) << form.name;
  }
}

// A result without a place in the form would be left out silently, and a place without a result
// would promise something.
TEST(CalculationForms, NameWhatTheCalculationGivesAndNothingElse) {
  for (const forms::CalculationForm& form : all_forms()) {
    std::set<std::string> shown;
    for (const forms::CalculationResult& result : form.results) {
      EXPECT_TRUE(shown.insert(result.name).second) << form.name << " " << result.name;
      EXPECT_FALSE(result.label.empty()) << form.name << " " << result.name;
    }
    std::set<std::string> given;
    for (const Calculated& run : runs_of(form)) {
      std::map<std::string, calculations::Value, std::less<>> values;
      for (const CalculatedLine& line : run.inputs) values.emplace(line.name, line.value);
      const auto bare = calculations::calculate(*calculations::find_calculator(form.name), values);
      ASSERT_TRUE(bare.ok()) << form.name;
      for (const calculations::NamedValue& value : *bare) given.insert(value.name);
    }
    EXPECT_EQ(given, shown) << form.name;
  }
}

TEST(CalculationForms, FillEveryStepFromInputsAndResults) {
  for (const forms::CalculationForm& form : all_forms()) {
    std::set<std::string> known;
    for (const forms::CalculationInput& input : form.inputs) known.insert(input.name);
    for (const forms::CalculationResult& result : form.results) known.insert(result.name);
    for (const std::string& step : form.steps) {
      EXPECT_THAT(known, IsSupersetOf(placeholders(step))) << form.name << ": " << step;
    }
    std::size_t most = 0;
    for (const Calculated& run : runs_of(form)) most = std::max(most, run.steps.size());
    EXPECT_EQ(most, form.steps.size()) << form.name << " leaves a step out";
    EXPECT_FALSE(form.steps.empty()) << form.name;
  }
}

TEST(CalculationForms, LabelEveryInputAndEveryChoice) {
  for (const forms::CalculationForm& form : all_forms()) {
    const auto& rules = calculations::find_calculator(form.name)->inputs;
    for (const forms::CalculationInput& input : form.inputs) {
      EXPECT_FALSE(input.label.empty()) << form.name << " " << input.name;
      EXPECT_EQ(input.label.find('_'), std::string::npos) << form.name << " " << input.label;
      const auto rule = std::find_if(rules.begin(), rules.end(),
                                     [&](const auto& one) { return one.name == input.name; });
      ASSERT_NE(rule, rules.end());
      if (input.choices.empty()) continue;
      EXPECT_EQ(input.choices.size(), rule->codes.size()) << form.name << " " << input.name;
    }
  }
}

/// The words for every code that came out of a run were those of the form, not the code itself.
TEST(CalculationForms, HaveWordsForEveryCodeThatComesOut) {
  for (const forms::CalculationForm& form : all_forms()) {
    for (const Calculated& run : runs_of(form)) {
      for (const CalculatedLine& line : run.results) {
        const auto* code = std::get_if<std::string>(&line.value);
        if (code == nullptr) continue;
        const auto result = std::find_if(form.results.begin(), form.results.end(),
                                         [&](const auto& one) { return one.name == line.name; });
        const bool known = std::any_of(result->choices.begin(), result->choices.end(),
                                       [&](const auto& one) { return one.code == *code; });
        EXPECT_TRUE(known) << form.name << " " << line.name << " " << *code;
      }
    }
  }
}

TEST(CalculationForms, CarryTheCautionsOfWhatTheyAreAbout) {
  const std::multimap<std::string, std::string> wanted = {
      {"oxygen-after-release", "nitrogen-asphyxiation"},
      {"oxygen-at-leak", "nitrogen-asphyxiation"},
      {"nitrogen-loss", "nitrogen-asphyxiation"},
      {"stored-energy", "high-pressure-gas"},
      {"stored-energy", "pressurised-parts"},
      {"spill-vapour", "flammable-vapour"},
      {"flash-point", "flammable-vapour"},
      {"gauge-check", "high-pressure-gas"},
      {"gauge-drift", "high-pressure-gas"},
      {"gauge-reference", "high-pressure-gas"},
      {"gauge-working-range", "high-pressure-gas"},
      {"nitrogen-content", "high-pressure-gas"},
      {"nitrogen-charges", "high-pressure-gas"}};
  for (const auto& [name, caution] : wanted) {
    const auto* form = real_definitions().calculations.find(name);
    ASSERT_NE(form, nullptr) << name;
    EXPECT_THAT(form->cautions, ::testing::Contains(caution)) << name;
    const auto* found = real_definitions().reports.cautions.find(caution);
    const std::string text = calculated_text(real_definitions(), calculated(name, form->example));
    EXPECT_THAT(text, HasSubstr("Caution: " + found->title)) << name;
    EXPECT_THAT(text, HasSubstr(found->sentences.front())) << name;
  }
}

TEST(CalculationForms, AreListedWithWhatAPageNeedsOfEachInput) {
  const base::Json all = list_calculations(real_definitions());
  std::map<std::string, std::string> listed;  // calculation/input to what is said of it
  for (const base::Json& calculation : *all.find("calculations")->array()) {
    for (const base::Json& input : *calculation.find("inputs")->array()) {
      listed[*calculation.find("name")->string() + "/" + *input.find("name")->string()] =
          base::write_json(input);
    }
  }
  EXPECT_THAT(listed["vessel-volume/position"],
              HasSubstr(R"("type":"choice","required":false,"default":"upright","choices":[)"
                        R"({"code":"upright","label":"standing upright"})"));
  EXPECT_THAT(listed["unit/from"], HasSubstr(R"({"code":"psi_abs","label":"psi abs."})"));
  EXPECT_THAT(listed["fill-forecast/daily_l"], HasSubstr(R"("type":"list","required":true)"));
  EXPECT_THAT(listed["fill-forecast/daily_l"], HasSubstr(R"("lowest":0)"));
  EXPECT_THAT(listed["fill-forecast/from_date"],
              HasSubstr(R"("type":"date","required":false,"default":"today","choices":[])"));
  EXPECT_THAT(listed["cylinder-stamp/last_test_date"], HasSubstr(R"("type":"month")"));
  EXPECT_THAT(listed["oxygen-after-release/room_volume_m3"], HasSubstr(R"("type":"number")"));
}

}  // namespace
}  // namespace benchwarden::workshop
