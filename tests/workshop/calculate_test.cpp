// What a calculation answers to what was written: as understood, refused, and for machines.

#include "workshop/calculate.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <charconv>
#include <set>

#include "workshop/calculation_text.h"
#include "workshop/project_files.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr base::CivilDate kToday{2026, 11, 25};

CalculationOutcome outcome(std::string_view name, const InputTexts& inputs) {
  return calculate(real_definitions(), kToday, name, inputs);
}
Calculated answer(std::string_view name, const InputTexts& inputs) {
  auto found = outcome(name, inputs);
  if (const auto* faults = std::get_if<Faults>(&found)) {
    ADD_FAILURE() << faults->front().sentence;
    return {*real_definitions().calculations.find(name), {}, {}, {}, {}};
  }
  return std::get<Calculated>(std::move(found));
}
/// "pointer code: sentence" of each fault; empty when there was a result.
std::vector<std::string> refusals(std::string_view name, const InputTexts& inputs) {
  const auto found = outcome(name, inputs);
  std::vector<std::string> told;
  if (const auto* faults = std::get_if<Faults>(&found)) {
    for (const Fault& fault : *faults) {
      told.push_back(fault.pointer + " " + fault.code + ": " + fault.sentence);
    }
  }
  return told;
}
const CalculatedLine& line(const std::vector<CalculatedLine>& lines, std::string_view name) {
  for (const CalculatedLine& one : lines) {
    if (one.name == name) return one;
  }
  ADD_FAILURE() << "no line " << name;
  return lines.front();
}

const InputTexts kContent{
    {"water_capacity_l", "50"}, {"gauge_pressure_bar", "200"}, {"temperature_c", "20"}};
InputTexts with(InputTexts inputs, const std::string& name, const std::string& text) {
  inputs.insert_or_assign(name, text);
  return inputs;
}

TEST(Calculate, TakesOtherUnitsAndEchoesBothWaysOfWriting) {
  const Calculated found =
      answer("nitrogen-content",
             with(with(kContent, "gauge_pressure_bar", "2900 psi"), "water_capacity_l", "50,5 l"));
  const CalculatedLine& pressure = line(found.inputs, "gauge_pressure_bar");
  EXPECT_EQ(pressure.text, "199.9479615");  // 2900 × 0.0689475729…, ten digits
  EXPECT_EQ(pressure.unit, "bar");
  EXPECT_EQ(pressure.given, "2900 psi");
  EXPECT_EQ(std::get<double>(line(found.inputs, "water_capacity_l").value), 50.5);
  const std::string text = calculated_text(real_definitions(), found);
  EXPECT_THAT(text, HasSubstr("Gauge pressure: 199.9479615 bar  (2900 psi)"));
  EXPECT_THAT(text, HasSubstr("Water capacity of the cylinder: 50.5 L  (50,5 l)"));
  EXPECT_THAT(text, HasSubstr("Air pressure: 1.01325 bar abs.  (not given)"));
}

TEST(Calculate, RefusesWhatCanBeReadInTwoWaysAndUnitsOfAnotherKind) {
  const std::map<std::string, std::string> reasons{
      {"1,250", "can be read in two ways; write it without thousands, with a point"},
      {"200 l", "has the unit L, which measures another kind"},
      {"200 bar_abs", "has the unit bar abs., which measures another kind"},
      {"much", "is not a number such as 28, 1.25 or 1,25, alone or with a unit"},
      {"200 bar bar", "has an unknown unit"}};
  for (const auto& [text, reason] : reasons) {
    EXPECT_THAT(refusals("nitrogen-content", with(kContent, "gauge_pressure_bar", text)),
                ::testing::ElementsAre("/inputs/gauge_pressure_bar wrong_type: Gauge pressure: '" +
                                       text + "' " + reason + ". Accepted: 0 … 350 bar."));
  }
}

TEST(Calculate, TakesTheUnitThatAnInputPrints) {
  const Calculated loss =
      answer("nitrogen-loss", with(real_definitions().calculations.find("nitrogen-loss")->example,
                                   "temperature_uncertainty_c", "0.5 K"));
  EXPECT_EQ(std::get<double>(line(loss.inputs, "temperature_uncertainty_c").value), 0.5);
  const InputTexts spill = real_definitions().calculations.find("spill-vapour")->example;
  const Calculated vapour = answer("spill-vapour", with(spill, "molar_mass_g_mol", "60.1 g/mol"));
  EXPECT_EQ(std::get<double>(line(vapour.inputs, "molar_mass_g_mol").value), 60.1);
  EXPECT_THAT(refusals("spill-vapour", with(spill, "molar_mass_g_mol", "60.1 kg g/mol")),
              ::testing::ElementsAre(HasSubstr("'60.1 kg g/mol' has the unit kg,")));
}

// Nobody measures a vapour pressure or that of the air with a gauge.
TEST(Calculate, TakesAPressureThatIsAlwaysAbsoluteInPlainUnits) {
  const InputTexts spill = real_definitions().calculations.find("spill-vapour")->example;
  for (const char* text : {"4.4 kPa", "4.4 kPa abs.", "44 hPa", "44 mbar", "33.0027 mmHg"}) {
    const Calculated found = answer("spill-vapour", with(spill, "vapour_pressure_kpa", text));
    EXPECT_NEAR(std::get<double>(line(found.inputs, "vapour_pressure_kpa").value), 4.4, 1e-5)
        << text;
  }
  const Calculated content =
      answer("nitrogen-content", with(kContent, "atmosphere_bar", "980 hPa"));
  EXPECT_DOUBLE_EQ(std::get<double>(line(content.inputs, "atmosphere_bar").value), 0.98);
  const InputTexts state{{"temperature_k", "293.15"}, {"absolute_pressure_mpa", "20 MPa"}};
  EXPECT_THAT(refusals("nitrogen-state", state),
              ::testing::ElementsAre("/inputs/absolute_pressure_mpa wrong_type: Absolute pressure: "
                                     "'20 MPa' has the unit MPa, which measures another kind. "
                                     "Accepted: 0 … 35 MPa abs."));
}

TEST(Calculate, ReadsOneValueWithItsUnitAsAListOfOne) {
  const InputTexts check{{"gauge_class", "en-1"},
                         {"scale_high_bar", "400"},
                         {"reference_bar", "3750 psi"},
                         {"as_found_bar", "258"}};
  const Calculated found = answer("gauge-check", check);
  const auto& reference = std::get<std::vector<double>>(line(found.inputs, "reference_bar").value);
  ASSERT_EQ(reference.size(), 1U);
  EXPECT_NEAR(reference.front(), 258.5534, 1e-4);
  EXPECT_THAT(refusals("gauge-check", with(check, "reference_bar", "258 bar 259 bar")),
              ::testing::ElementsAre(HasSubstr("'258 bar 259 bar' has an unknown unit")));
}

TEST(Calculate, TakesAMonthOnlyWhereAMonthIsAskedFor) {
  EXPECT_THAT(refusals("due-date", {{"from_date", "2026-11"}, {"interval_months", "1"}}),
              ::testing::ElementsAre("/inputs/from_date wrong_type: From: '2026-11' is a month, "
                                     "not a day. Accepted: a day such as 2026-11-25."));
  const Calculated stamp =
      answer("cylinder-stamp", {{"last_test_date", "2022-02"}, {"interval_years", "5"}});
  EXPECT_EQ(line(stamp.results, "last_day_in_date").text, "2027-02-28");
}

struct RefusedCase {
  const char* calculation;
  InputTexts inputs;
  const char* told;
};

const InputTexts kCheck{{"gauge_class", "en-1"},
                        {"scale_high_bar", "10"},
                        {"reference_bar", "0; 5"},
                        {"as_found_bar", "0; 5"}};

std::vector<RefusedCase> refused_inputs() {
  InputTexts no_pressure = kContent;
  no_pressure.erase("gauge_pressure_bar");
  return {
      {"nitrogen-content", no_pressure,
       "/inputs/gauge_pressure_bar missing: Gauge pressure is needed. Accepted: 0 … 350 bar."},
      {"oil-correction",
       {{"density_15c_kg_m3", "870"}, {"temperature_c", "20"}, {"colour", "brown"}},
       "/inputs/colour unknown_input: 'colour' is not an input of this calculation. Inputs: "
       "density_15c_kg_m3, temperature_c, product_group."},
      {"gauge-check", with(kCheck, "gauge_class", "en-3"),
       "/inputs/gauge_class unknown_code: Class of the gauge: 'en-3' is not one of the choices. "
       "Choices: en-0.1, en-0.25, en-0.6, en-1, en-1.6, en-2.5, en-4, asme-4a, asme-3a, asme-2a, "
       "asme-1a, asme-a, asme-b, asme-c, asme-d."},
      {"nitrogen-content", with(kContent, "temperature_c", "140 °F"),
       "/inputs/temperature_c out_of_range: Temperature of the gas: 140 °F is outside the range "
       "this calculation was checked for. Accepted: -20 … 50 °C."},
      {"nitrogen-content", with(kContent, "gauge_pressure_bar", "350"),
       "/inputs out_of_range: Absolute pressure in MPa: 35.101325 is outside the range this "
       "calculation was checked for. Accepted: 0 … 35."},
      {"unit",
       {{"value", "1"}, {"from", "bar"}, {"to", "l"}},
       "/inputs/to no_solution: To: these inputs determine no result. Check them against each "
       "other."},
      {"due-date",
       {{"from_date", "2026-01-31"}, {"interval_months", "1.5"}},
       "/inputs/interval_months not_whole: Months: 1.5 is not a whole number. Accepted: 0 … 1200 "
       "months."},
      {"due-date",
       {{"from_date", "9999-12-31"}, {"interval_months", "1"}},
       "/inputs/from_date after_calendar: From: the day asked for lies after the year 9999, where "
       "the calendar ends."},
      {"due-date",
       {{"from_date", "2023-02-29"}, {"interval_months", "1"}},
       "/inputs/from_date wrong_type: From: '2023-02-29' is no day of the calendar. Accepted: a "
       "day such as 2026-11-25."},
      {"cylinder-stamp",
       {{"last_test_date", "2026-12"}, {"interval_years", "5"}},
       "/inputs/last_test_date after_judged: Month of the last test: 2026-12 lies after the day to "
       "judge. Accepted: that day or an earlier one."},
      {"gauge-check", with(kCheck, "expanded_uncertainty_bar", "0.2 bar"),
       "/inputs/expanded_uncertainty_bar contradicts: Expanded uncertainty (k = 2) of the "
       "comparison: 0.2 bar does not go with the other inputs. Beside them, accepted: 0 … 0.1 "
       "bar."}};
}

std::vector<RefusedCase> refused_lists() {
  std::string days;
  for (int i = 0; i < 4001; ++i) days += "1 ";
  return {
      {"gauge-check", with(kCheck, "as_found_bar", "0; 5; 2001"),
       "/inputs/as_found_bar out_of_range: Gauge as found, rising: 2001 is outside the range this "
       "calculation was checked for. Accepted: -1 … 2000 bar."},
      {"fill-forecast",
       {{"daily_l", "1 2 3"}, {"remaining_l", "10"}},
       "/inputs/daily_l too_few: Volume of each day, oldest first: 3 values are too few. Accepted: "
       "28 to 4000 numbers, each 0 … 1000000 L."},
      {"fill-forecast",
       {{"daily_l", days}, {"remaining_l", "10"}},
       "/inputs/daily_l too_many: Volume of each day, oldest first: 4001 values are too many. "
       "Accepted: 28 to 4000 numbers, each 0 … 1000000 L."},
      {"gauge-check", with(kCheck, "as_found_bar", "0; 5; 9"),
       "/inputs/as_found_bar unequal_lists: Gauge as found, rising: 3 values do not pair up with "
       "the others. Accepted: 2 values."}};
}

TEST(Calculate, SaysForEachRefusalWhichInputAndWhatWouldBeAccepted) {
  std::vector<RefusedCase> cases = refused_inputs();
  for (const RefusedCase& one : refused_lists()) cases.push_back(one);
  std::set<std::string> keys;
  for (const RefusedCase& one : cases) {
    EXPECT_THAT(refusals(one.calculation, one.inputs), ::testing::ElementsAre(one.told));
    const std::string told = one.told;
    const std::size_t space = told.find(' ');
    keys.insert(told.substr(space + 1, told.find(':') - space - 1));
  }
  for (const std::string_view key : calculations::all_refusal_keys()) {
    EXPECT_TRUE(keys.contains(std::string(key))) << key << " is tried by no case";
  }
}

TEST(Calculate, CutsLongTextInSentences) {
  const auto told =
      refusals("unit", {{"value", std::string(500, 'x')}, {"from", "bar"}, {"to", "psi"}});
  ASSERT_EQ(told.size(), 1U);
  EXPECT_THAT(told.front(), HasSubstr("'" + std::string(60, 'x') + "…' is not a number"));
  EXPECT_EQ(shortened(std::string(59, 'x') + "ä!"), std::string(59, 'x') + "…");
}

TEST(Calculate, TellsAllFaultsAtOnce) {
  EXPECT_EQ(
      refusals("nitrogen-content", {{"water_capacity_l", "0"}, {"temperature_c", "60"}}).size(),
      3U);
  EXPECT_EQ(refusals("nitrogen-content",
                     {{"water_capacity_l", "much"}, {"temperature_c", "60"}, {"colour", "brown"}})
                .size(),
            4U);
  EXPECT_THAT(std::get<base::Error>(outcome("no-such", {})).detail, HasSubstr("'no-such'"));
}

TEST(Calculate, TakesTheGasOrTheCylinderButNotBoth) {
  const InputTexts gas{{"room_volume_m3", "62"}, {"gas_volume_m3", "9.4"}};
  EXPECT_EQ(answer("oxygen-after-release", gas).steps.size(), 2U);
  EXPECT_THAT(refusals("oxygen-after-release", with(gas, "gauge_pressure_bar", "200")),
              ::testing::ElementsAre(HasSubstr("/inputs/gas_volume_m3 no_solution")));
}

// A guard band of nothing would pass as guarded what is not.
TEST(Calculate, GuardsNoDecisionWithoutAnUncertainty) {
  EXPECT_THAT(refusals("gauge-check", with(kCheck, "decision_rule", "guarded")),
              ::testing::ElementsAre(
                  HasSubstr("Expanded uncertainty (k = 2) of the comparison is needed")));
  const auto guarded = with(kCheck, "decision_rule", "guarded");
  EXPECT_TRUE(refusals("gauge-check", with(guarded, "expanded_uncertainty_bar", "0.01")).empty());
}

TEST(Calculate, WritesListsDatesAndCodesForPeople) {
  const Calculated stamp =
      answer("cylinder-stamp", {{"last_test_date", "2021-06"}, {"interval_years", "5"}});
  EXPECT_EQ(line(stamp.inputs, "last_test_date").text, "2021-06-01");
  EXPECT_EQ(line(stamp.inputs, "today_date").text, "2026-11-25");
  EXPECT_EQ(line(stamp.results, "last_day_in_date").text, "2026-06-30");
  EXPECT_EQ(line(stamp.results, "stamp").text, "due: test before filling");
  EXPECT_EQ(std::get<std::string>(line(stamp.results, "stamp").value), "test-before-filling");
  EXPECT_EQ(value_text(std::vector<double>{0, 1.25, 30}, 3, {}), "0; 1.25; 30.0");
  EXPECT_EQ(value_text(std::vector<double>(17, 0.1), 3, {}), "17 values, together 1.70000");
}

TEST(Calculate, NumbersForPeopleHaveTheirDigits) {
  EXPECT_EQ(rounded_number(0, 3), "0");
  EXPECT_EQ(rounded_number(1.25, 3), "1.25");
  EXPECT_EQ(rounded_number(12345.6, 3), "12346");  // digits before the point are kept
  EXPECT_EQ(rounded_number(0.00012344, 3), "0.000123");
  EXPECT_EQ(rounded_number(-2e20, 3), "-2.00e+20");
  EXPECT_EQ(plain_number(0.1), "0.1");
  EXPECT_EQ(plain_number(5e-324), "5e-324");
  EXPECT_EQ(plain_number(1e15), "1e+15");
}

double read_back(const std::string& token) {
  double value = 0;
  std::from_chars(token.data(), token.data() + token.size(), value);
  return value;
}

TEST(Calculate, JsonIsUnrounded) {
  for (const forms::CalculationForm& form : real_definitions().calculations.all()) {
    const Calculated found = answer(form.name, form.example);
    const base::Json json = parsed(base::write_json(calculated_json(real_definitions(), found)));
    for (std::size_t i = 0; i < found.results.size(); ++i) {
      const auto* value = std::get_if<double>(&found.results[i].value);
      if (value == nullptr) continue;
      const std::string path = "results/" + std::to_string(i) + "/value";
      EXPECT_EQ(read_back(value_at(json, path)), *value) << form.name << " " << path;
    }
  }
}

TEST(Calculate, JsonCarriesSourceRangeStepsAndCautions) {
  const base::Json json = calculated_json(real_definitions(), answer("nitrogen-content", kContent));
  EXPECT_EQ(value_at(json, "calculation"), R"("nitrogen-content")");
  EXPECT_THAT(value_at(json, "steps/0"), HasSubstr("200 bar + 1.01325 bar = 201.0132 bar"));
  EXPECT_THAT(value_at(json, "sources/0"), HasSubstr("Span"));
  EXPECT_THAT(value_at(json, "valid_range"), HasSubstr("35 MPa"));
  EXPECT_EQ(value_at(json, "cautions/0/id"), R"("high-pressure-gas")");
  EXPECT_EQ(value_at(json, "inputs/0/given"), R"("50")");
  EXPECT_EQ(value_at(json, "figures"), "[]");
}

TEST(Calculate, NamesTheFiguresOfTheRulesThatItTook) {
  const InputTexts release{{"room_volume_m3", "62"}, {"gas_volume_m3", "9.4"}};
  const Calculated found = answer("oxygen-after-release", release);
  const base::Json json = calculated_json(real_definitions(), found);
  EXPECT_EQ(value_at(json, "figures/0/id"), R"("oxygen-baseline")");
  EXPECT_EQ(value_at(json, "figures/0/value"), "20.9");
  EXPECT_THAT(value_at(json, "figures/1/citation"), HasSubstr("29 CFR 1910.134"));
  EXPECT_EQ(value_at(json, "figures/2/id"), R"("oxygen-second-level")");
  const std::string text = calculated_text(real_definitions(), found);
  EXPECT_THAT(text, HasSubstr("oxygen-baseline, 20.9 %: "));
  EXPECT_THAT(text, HasSubstr("Oxygen in the air before: 20.9 %"));
  const Calculated own = answer("oxygen-after-release", with(release, "baseline_percent", "21"));
  EXPECT_EQ(own.figures.size(), 2U);
  EXPECT_THAT(calculated_text(real_definitions(), own), Not(HasSubstr("oxygen-baseline")));
}

TEST(Calculate, ReadsTheInputsOfARequest) {
  const auto texts = input_texts(parsed(
      R"({"a": 1.50, "b": "28 bar", "c": {"value": 2900, "unit": "psi"}, "d": [0, "1,2", 3]})"));
  ASSERT_TRUE(texts.ok());
  EXPECT_EQ(texts->at("a"), "1.50");
  EXPECT_EQ(texts->at("b"), "28 bar");
  EXPECT_EQ(texts->at("c"), "2900 psi");
  EXPECT_EQ(texts->at("d"), "0;1,2;3;");
  for (const char* bad : {R"([1])", R"({"a": true})", R"({"a": null})", R"({"a": {"value": 1}})",
                          R"({"a": [[1]]})", R"({"a": {"value": "1", "unit": "l"}})"}) {
    EXPECT_FALSE(input_texts(parsed(bad)).ok()) << bad;
  }
}

TEST(Calculate, DescribesInputsWithTheirDefaultsAndAnExample) {
  const std::string text = describe_calculation(real_definitions(), "oxygen-after-release");
  EXPECT_THAT(text, HasSubstr("baseline_percent"));
  EXPECT_THAT(text, HasSubstr("20.9 when not given (20.9 % oxygen in dry air"));
  EXPECT_THAT(text, HasSubstr("benchwarden calculate oxygen-after-release"));
  EXPECT_EQ(describe_calculation(real_definitions(), "no-such"), "");
}

}  // namespace
}  // namespace benchwarden::workshop
