#include <gtest/gtest.h>

#include "calculations/gauge_class.h"
#include "calculations/gauge_decision.h"
#include "reference/table.h"

namespace benchwarden::calculations {
namespace {

Decision by_error(const char* code, const GaugeScale& scale, double reference, double reading) {
  const auto limit = error_limit(*find_gauge_class(code), scale, reference);
  return *decide(DecisionRule::kSimple, reading - reference, *limit, 0);
}

// EN 837-1:1996, table 11, applied: error against the class's share of the span.
TEST(GaugeReference, ErrorsAgainstEnClasses) {
  EXPECT_EQ(by_error("en-1.6", {0, 40}, 20.0, 20.6), Decision::kPass);  // 0.60 of 0.64
  EXPECT_EQ(by_error("en-1.6", {0, 40}, 20.0, 20.7), Decision::kFail);  // 0.70
  EXPECT_EQ(by_error("en-1", {-1, 5}, 2.0, 2.06), Decision::kPass);     // on the limit of 0.06
  EXPECT_EQ(by_error("en-2.5", {0, 25}, 10.0, 9.3), Decision::kFail);   // 0.70 of 0.625
  EXPECT_DOUBLE_EQ(*error_limit(*find_gauge_class("en-1.6"), {0, 10}, 5), 0.16);
}

// ASME B40.100, grade B (3-2-3), 0 to 300 psi.
TEST(GaugeReference, ZonesOfAsmeGradeB) {
  const GaugeClass& grade = *find_gauge_class("asme-b");
  const double points[] = {60, 75, 150, 225, 240};
  const double limits[] = {9, 6, 6, 6, 9};
  for (int i = 0; i < 5; ++i) {
    EXPECT_DOUBLE_EQ(*error_limit(grade, {0, 300}, points[i]), limits[i]) << points[i];
  }
}

TEST(GaugeReference, BordersOfTheZonesInAnotherUnit) {
  constexpr double kBarPerPsi = 0.0689475729317;
  const GaugeScale scale{0, 5000 * kBarPerPsi};
  const auto limit = error_limit(*find_gauge_class("asme-b"), scale, 3750 * kBarPerPsi);
  ASSERT_TRUE(limit.ok());
  EXPECT_NEAR(*limit / scale.span(), 0.02, 1e-12);
}

// ANSI/NCSL Z540.3 asks for 4: class 1.6, 0 to 40 bar, against two references.
TEST(GaugeReference, RatioToTheReference) {
  const GaugeClass& gauge = *find_gauge_class("en-1.6");
  EXPECT_NEAR(*reference_ratio(gauge, {0, 40}, *find_gauge_class("en-0.25"), {0, 60}), 4.27, 5e-3);
  EXPECT_NEAR(*reference_ratio(gauge, {0, 40}, *find_gauge_class("en-0.6"), {0, 40}), 2.67, 5e-3);
}

// EN 837-2: 75 % of full scale at a steady pressure, 65 % at a fluctuating one.
TEST(GaugeReference, WorkingRange) {
  EXPECT_DOUBLE_EQ(working_share(Load::kSteady) * 400, 300);
  EXPECT_DOUBLE_EQ(working_share(Load::kFluctuating) * 400, 260);
}

// ILAC-G8:09/2019, the rule with four bands, and JCGM 106:2012 for the probability: limit 4.0 bar,
// U 0.9 bar. COMPUTED probabilities.
TEST(GaugeReference, BandsAndProbabilities) {
  struct Case {
    double error;
    Decision decision;
    double probability;
  };
  using enum Decision;
  testing::Deviation deviation("probability of conformance of 0.5 and more");
  for (const Case& one : {Case{2.0, kPass, 1.00000}, Case{3.1, kPass, 0.97725},
                          Case{3.5, kConditionalPass, 0.86674}, Case{4.0, kConditionalPass, 0.5},
                          Case{4.5, kConditionalFail, 0.13326}, Case{5.0, kFail, 0.01313}}) {
    EXPECT_EQ(*decide(DecisionRule::kFourWay, one.error, 4.0, 0.9), one.decision) << one.error;
    EXPECT_EQ(*decide(DecisionRule::kFourWay, -one.error, 4.0, 0.9), one.decision) << one.error;
    const double probability = *conformance_probability(one.error, 4.0, 0.45);
    EXPECT_NEAR(probability, one.probability, 5e-6);
    if (one.probability >= 0.5) deviation.of(probability, one.probability);
  }
}

// ILAC-G8:09/2019: with a guard band of U (k = 2) the false acceptance at its border is 2.3 %,
// with 1.645 u it is 5 %.
TEST(GaugeReference, RiskAtTheGuardBand) {
  EXPECT_NEAR(1 - *conformance_probability(4.0 - 2 * 0.1, 4.0, 0.1), 0.02275, 5e-6);
  EXPECT_NEAR(1 - *conformance_probability(4.0 - 1.645 * 0.1, 4.0, 0.1), 0.0500, 5e-5);
}

}  // namespace
}  // namespace benchwarden::calculations
