// Inputs that are each within their range and do not go together are refused by name; and what a
// calculation says of its own result in words.

#include <gtest/gtest.h>

#include "calculations/asked.h"

namespace benchwarden::calculations {
namespace {

NamedInputs merged(NamedInputs inputs, const NamedInputs& more) {
  for (const auto& [name, value] : more) inputs.insert_or_assign(name, value);
  return inputs;
}
Value result(std::string_view calculation, const NamedInputs& inputs, std::string_view name) {
  const auto found = calculate(*find_calculator(calculation), inputs);
  if (found) {
    for (const NamedValue& one : *found) {
      if (one.name == name) return one.value;
    }
  }
  ADD_FAILURE() << "no " << name;
  return {};
}

const NamedInputs kLoss{{"water_capacity_l", 50.0},
                        {"capacity_uncertainty_percent", 0.5},
                        {"first_gauge_pressure_bar", 200.0},
                        {"first_temperature_c", 20.0},
                        {"second_gauge_pressure_bar", 190.0},
                        {"second_temperature_c", 20.0},
                        {"gauge_class_percent", 1.6},
                        {"gauge_span_bar", 250.0},
                        {"gauge_resolution_bar", 1.0},
                        {"temperature_uncertainty_c", 1.0},
                        {"logged_use_kg", 0.0},
                        {"loss_of_interest_kg", 0.1},
                        {"atmosphere_bar", 1.01325}};

TEST(ContradictingInputs, NoGaugeShowsMoreThanItsSpan) {
  for (const char* name : {"first_gauge_pressure_bar", "second_gauge_pressure_bar"}) {
    const Refusal found = refusal("nitrogen-loss", merged(kLoss, {{name, 251.0}}));
    EXPECT_EQ(found.code, RefusalCode::kContradicts);
    EXPECT_EQ(found.name, name);
    EXPECT_EQ(found.high, 250);
  }
}

// What the help of loss_of_interest_kg says of the usual gauge.
TEST(ContradictingInputs, TheUsualGaugeShowsOnlyLargeLosses) {
  const double least = std::get<double>(result("nitrogen-loss", kLoss, "expanded_uncertainty_kg"));
  EXPECT_NEAR(least, 0.35, 0.03);
}

const NamedInputs kRelease{{"room_volume_m3", 62.0},      {"gas_volume_m3", 9.4},
                           {"temperature_c", 20.0},       {"atmosphere_bar", 1.01325},
                           {"baseline_percent", 20.0},    {"first_level_percent", 19.5},
                           {"second_level_percent", 18.0}};

TEST(ContradictingInputs, TheFirstAlarmLevelIsAboveTheSecond) {
  const Refusal found =
      refusal("oxygen-after-release", merged(kRelease, {{"first_level_percent", 18.0}}));
  EXPECT_EQ(found.code, RefusalCode::kContradicts);
  EXPECT_EQ(found.name, "first_level_percent");
}

TEST(ContradictingInputs, OxygenIsHeldAgainstBothLevels) {
  const auto level = [](double gas) {
    const auto inputs = merged(kRelease, {{"room_volume_m3", 100.0}, {"gas_volume_m3", gas}});
    return std::get<std::string>(result("oxygen-after-release", inputs, "oxygen_level"));
  };
  EXPECT_EQ(level(10.5), "below-second-level");    // 17.9 %
  EXPECT_EQ(level(10.0), "below-first-level");     // 18 %, on the level
  EXPECT_EQ(level(2.6), "below-first-level");      // 19.48 %
  EXPECT_EQ(level(2.5), "not-below-first-level");  // 19.5 %, on the level
}

const NamedInputs kSpill{{"room_volume_m3", 30.0},     {"spilled_l", 5.0},
                         {"density_kg_m3", 785.5},     {"molar_mass_g_mol", 60.1},
                         {"lower_limit_percent", 2.0}, {"vapour_pressure_kpa", 4.4},
                         {"temperature_c", 20.0},      {"atmosphere_bar", 1.01325}};

TEST(ContradictingInputs, AVapourPressureIsBelowThatOfTheAir) {
  const Refusal found = refusal(
      "spill-vapour", merged(kSpill, {{"vapour_pressure_kpa", 60.0}, {"atmosphere_bar", 0.6}}));
  EXPECT_EQ(found.code, RefusalCode::kContradicts);
  EXPECT_EQ(found.name, "vapour_pressure_kpa");
  EXPECT_DOUBLE_EQ(found.high, 60);
  EXPECT_TRUE(
      calculate(*find_calculator("spill-vapour"), merged(kSpill, {{"vapour_pressure_kpa", 100.0}}))
          .ok());
}

TEST(ContradictingInputs, TheShareOfTheLimitIsAlsoGivenWithoutTheCut) {
  const double cut =
      std::get<double>(result("spill-vapour", kSpill, "share_of_lower_limit_percent"));
  const double uncut =
      std::get<double>(result("spill-vapour", kSpill, "uncut_share_of_lower_limit_percent"));
  EXPECT_NEAR(cut, 100 * 4.4 / 101.325 / 0.02, 1e-9);
  EXPECT_NEAR(uncut, 262, 1);  // twenty times the quarter of a litre that gives 13.1 %
}

constexpr base::CivilDate kToday{2026, 11, 25};
NamedInputs stamped(base::CivilDate tested, base::CivilDate filled) {
  return {{"last_test_date", tested},
          {"interval_years", 5.0},
          {"today_date", kToday},
          {"filled_date", filled}};
}

TEST(ContradictingInputs, NoTestAndNoFillingComesAfterTheDayToJudge) {
  const Refusal tested = refusal("cylinder-stamp", stamped({2026, 12, 1}, {2026, 11, 1}));
  EXPECT_EQ(tested.code, RefusalCode::kAfterJudged);
  EXPECT_EQ(tested.name, "last_test_date");
  const Refusal filled = refusal("cylinder-stamp", stamped({2021, 6, 1}, {2026, 11, 26}));
  EXPECT_EQ(filled.code, RefusalCode::kAfterJudged);
  EXPECT_EQ(filled.name, "filled_date");
}

TEST(ContradictingInputs, AFillingBeforeTheTestDoesNotCount) {
  const auto stamp = [](base::CivilDate filled) {
    const auto inputs = stamped({2021, 6, 15}, filled);
    return std::get<std::string>(result("cylinder-stamp", inputs, "stamp"));
  };
  EXPECT_EQ(stamp({2021, 5, 31}), "test-before-filling");
  EXPECT_EQ(stamp({2021, 6, 1}), "use-until-empty-then-test");  // the stamp tells the month alone
}

}  // namespace
}  // namespace benchwarden::calculations
