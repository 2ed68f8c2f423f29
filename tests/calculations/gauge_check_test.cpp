// What a comparison of a gauge is told beside its errors, and which comparisons are refused.

#include <gtest/gtest.h>

#include "calculations/asked.h"
#include "calculations/gauge_class.h"
#include "calculations/gauge_decision.h"

namespace benchwarden::calculations {
namespace {

using List = std::vector<double>;

/// A class 1.6 gauge of 0 to 40 bar: limit 0.64 bar.
NamedInputs check_with(const NamedInputs& more) {
  NamedInputs inputs{{"gauge_class", "en-1.6"},
                     {"scale_low_bar", 0.0},
                     {"scale_high_bar", 40.0},
                     {"reference_bar", List{0, 10, 20, 30, 40}},
                     {"as_found_bar", List{0, 10, 20, 30, 40}},
                     {"expanded_uncertainty_bar", 0.15},
                     {"decision_rule", "guarded"}};
  for (const auto& [name, value] : more) inputs.insert_or_assign(name, value);
  return inputs;
}

std::map<std::string, Value> results(std::string_view name, const NamedInputs& inputs) {
  std::map<std::string, Value> named;
  const auto found = calculate(*find_calculator(name), inputs);
  if (!found) {
    ADD_FAILURE() << refusal_key(found.error().front().code) << " " << found.error().front().name;
    return named;
  }
  for (const auto& [result, value] : *found) named.emplace(result, value);
  return named;
}
std::string code(std::string_view name, const NamedInputs& inputs, const std::string& result) {
  const auto named = results(name, inputs);
  const auto found = named.find(result);
  return found == named.end() ? "" : std::get<std::string>(found->second);
}

// Both runs keep to 0.64 bar, and their difference at 20 bar does not.
TEST(GaugeCheck, JudgesTheHysteresisOfAnEnClass) {
  const NamedInputs apart{{"as_found_bar", List{0, 10, 19.6, 30, 40}},
                          {"as_found_falling_bar", List{0, 10, 20.3, 30, 40}},
                          {"decision_rule", "simple"}};
  EXPECT_EQ(code("gauge-check", check_with(apart), "as_found_decision"), "within-class");
  EXPECT_EQ(code("gauge-check", check_with(apart), "as_found_falling_decision"), "within-class");
  EXPECT_EQ(code("gauge-check", check_with(apart), "hysteresis_decision"), "outside-class");
  NamedInputs near = check_with(apart);
  near.insert_or_assign("as_found_falling_bar", List{0, 10, 20.24, 30, 40});  // on the limit
  EXPECT_EQ(code("gauge-check", near, "hysteresis_decision"), "within-class");
  near.insert_or_assign("gauge_class", "asme-a");
  EXPECT_EQ(code("gauge-check", near, "hysteresis_decision"), "");
}

TEST(GaugeCheck, SaysWhenThereAreFewerPointsThanUsual) {
  EXPECT_EQ(code("gauge-check", check_with({}), "points"), "usual");
  const NamedInputs four{{"reference_bar", List{0, 10, 20, 30}},
                         {"as_found_bar", List{0, 10, 20, 30}}};
  EXPECT_EQ(code("gauge-check", check_with(four), "points"), "fewer-than-5");
  EXPECT_EQ(code("gauge-check", check_with({{"gauge_class", "en-0.6"}}), "points"),
            "fewer-than-10");
  EXPECT_EQ(usual_points(*find_gauge_class("en-1")), 5U);
  EXPECT_EQ(code("gauge-check", check_with({{"gauge_class", "asme-a"}}), "points"), "");
}

TEST(GaugeCheck, DoesNotCallOutsideWhatLiesInTheGuardBand) {
  const NamedInputs in_band{{"as_found_bar", List{0, 10, 20.6, 30, 40}}};
  EXPECT_EQ(code("gauge-check", check_with(in_band), "as_found_decision"),
            "not-accepted-inside-guard-band");
  const NamedInputs beyond{{"as_found_bar", List{0, 10, 20.7, 30.6, 40}}};
  EXPECT_EQ(code("gauge-check", check_with(beyond), "as_found_decision"), "outside-class");
}

TEST(GaugeCheck, RefusesAComparisonLessCertainThanTheLimit) {
  for (const char* rule : {"simple", "guarded", "four-way"}) {
    const NamedInputs uncertain{{"decision_rule", rule}, {"expanded_uncertainty_bar", 0.7}};
    const Refusal found = refusal("gauge-check", check_with(uncertain));
    EXPECT_EQ(found.code, RefusalCode::kContradicts) << rule;
    EXPECT_EQ(found.name, "expanded_uncertainty_bar");
    EXPECT_DOUBLE_EQ(found.value, 0.7);
    EXPECT_DOUBLE_EQ(found.high, 0.64);
  }
  // As uncertain as the limit: no error but none at all is accepted.
  EXPECT_EQ(*decide(DecisionRule::kGuarded, 0, 1, 1), Decision::kPass);
  EXPECT_EQ(*decide(DecisionRule::kGuarded, 0.1, 1, 1), Decision::kNotAccepted);
}

TEST(GaugeCheck, TakesAReferenceALittleBeyondTheScale) {
  const GaugeClass& zoned = *find_gauge_class("asme-b");
  EXPECT_DOUBLE_EQ(*error_limit(zoned, {0, 40}, 42), 1.2);
  EXPECT_DOUBLE_EQ(*error_limit(zoned, {0, 40}, -2), 1.2);
  EXPECT_FALSE(error_limit(zoned, {0, 40}, 42.01).ok());
  EXPECT_FALSE(error_limit(zoned, {0, 40}, -2.01).ok());
}

NamedInputs reference_with(const NamedInputs& more) {
  NamedInputs inputs{{"gauge_class", "asme-a"},        {"scale_low_bar", 0.0},
                     {"scale_high_bar", 40.0},         {"reference_class", "asme-3a"},
                     {"reference_scale_low_bar", 0.0}, {"reference_scale_high_bar", 40.0}};
  for (const auto& [name, value] : more) inputs.insert_or_assign(name, value);
  return inputs;
}
double ratio(const NamedInputs& more) {
  return std::get<double>(results("gauge-reference", reference_with(more)).at("reference_ratio"));
}

TEST(GaugeReferenceRatio, IsTheSmallestOfTheZones) {
  EXPECT_DOUBLE_EQ(ratio({}), 4);  // 1 % of the middle, not 2 % outside it
  EXPECT_DOUBLE_EQ(ratio({{"gauge_class", "asme-d"}, {"reference_class", "asme-a"}}), 2.5);
  // The outer zone of a longer reference lies beyond half of the gauge's scale.
  EXPECT_DOUBLE_EQ(ratio({{"gauge_class", "en-4"},
                          {"reference_class", "asme-a"},
                          {"reference_scale_low_bar", -1.0},
                          {"reference_scale_high_bar", 41.0}}),
                   1.6 / 0.84);
}

TEST(GaugeReferenceRatio, RefusesAReferenceThatDoesNotCoverTheGauge) {
  const Refusal high =
      refusal("gauge-reference", reference_with({{"reference_scale_high_bar", 25.0}}));
  EXPECT_EQ(high.code, RefusalCode::kContradicts);
  EXPECT_EQ(high.name, "reference_scale_high_bar");
  EXPECT_EQ(high.low, 40);
  const Refusal low = refusal("gauge-reference", reference_with({{"scale_low_bar", -1.0}}));
  EXPECT_EQ(low.name, "reference_scale_low_bar");
  EXPECT_EQ(low.high, -1);
}

}  // namespace
}  // namespace benchwarden::calculations
