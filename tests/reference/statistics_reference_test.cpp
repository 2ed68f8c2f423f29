#include <gtest/gtest.h>

#include <map>

#include "calculations/fill_forecast.h"
#include "calculations/gauge_drift.h"
#include "calculations/line_fit.h"
#include "calculations/statistics.h"
#include "reference/table.h"

namespace benchwarden::calculations {
namespace {

TEST(StatisticsReference, NistNorris) {
  const auto rows = testing::read_table("norris_data");
  const auto fit = fit_line(testing::column(rows, "x"), testing::column(rows, "y"));
  ASSERT_TRUE(fit.ok());
  const std::map<std::string, double> found{{"intercept", fit->intercept},
                                            {"intercept_sd", fit->intercept_sd},
                                            {"slope", fit->slope},
                                            {"slope_sd", fit->slope_sd},
                                            {"residual_sd", fit->residual_sd},
                                            {"residual_df", fit->degrees_of_freedom()}};
  testing::Deviation deviation("NIST Norris");
  std::size_t compared = 0;
  for (const testing::Row& row : testing::read_table("norris_certified")) {
    const auto value = found.find(row.text("quantity"));
    if (value == found.end()) continue;
    EXPECT_LT(deviation.of(value->second, row.number("certified")), 1e-10) << value->first;
    ++compared;
  }
  EXPECT_EQ(compared, found.size());
}

void compare_with_r(const LineFit& fit, const std::string& kind, const std::string& level,
                    testing::Deviation& deviation) {
  for (const testing::Row& row : testing::read_table("cars_" + kind + "_" + level)) {
    const double speed = row.number("speed");
    const double probability = row.number("level");
    const Interval interval = kind == "confidence" ? confidence_interval(fit, speed, probability)
                                                   : prediction_interval(fit, speed, probability);
    EXPECT_LT(deviation.of(fit.at(speed), row.number("fit")), 1e-10);
    EXPECT_LT(deviation.of(interval.low, row.number("lwr")), 1e-10);
    EXPECT_LT(deviation.of(interval.high, row.number("upr")), 1e-10);
  }
}

TEST(StatisticsReference, IntervalsOfR) {
  const auto rows = testing::read_table("cars_data");
  const auto fit = fit_line(testing::column(rows, "speed"), testing::column(rows, "dist"));
  ASSERT_TRUE(fit.ok());
  testing::Deviation deviation("intervals of R");
  for (const char* kind : {"confidence", "prediction"}) {
    for (const char* level : {"80", "95"}) compare_with_r(*fit, kind, level, deviation);
  }
}

// COMPUTED with R on made-up inspections.
TEST(StatisticsReference, DriftOfAGauge) {
  const std::vector<double> years{0, 1, 2, 3, 4, 5};
  const std::vector<double> errors{0.10, 0.40, 0.50, 0.90, 1.10, 1.20};
  const auto drift = gauge_drift(years, errors, 2.5);
  ASSERT_TRUE(drift.ok());
  EXPECT_NEAR(drift->line.intercept, 0.1285714286, 5e-11);
  EXPECT_NEAR(drift->line.slope, 0.2285714286, 5e-11);
  EXPECT_NEAR(drift->line.residual_sd, 0.08017837257, 5e-12);
  ASSERT_TRUE(drift->leaves && drift->earliest);
  EXPECT_NEAR(*drift->leaves, 10.375, 5e-4);
  testing::Deviation deviation("year a gauge may leave its class");
  EXPECT_LT(deviation.of(*drift->earliest, 8.606463), 6e-8);
  const Interval at6 = prediction_interval(drift->line, 6, 0.95);
  EXPECT_NEAR(at6.low, 1.195855677, 5e-10);
  EXPECT_NEAR(at6.high, 1.804144323, 5e-10);
}

TEST(StatisticsReference, QuantilesOfTheFillForecast) {
  const std::vector<double> daily{0, 1.2, 0,   0, 2.5, .8, 0, 0, 3.1, 0, 1.4, 0,   0,   2.2, .9,
                                  0, 0,   1.7, 0, 2.8, .6, 0, 0, 1.9, 0, 0,   3.3, 1.1, 0,   0};
  const Spread days = spread(daily);
  const auto count = static_cast<double>(days.count);
  const FillRate rate{days.mean, days.sd, 1 / count, count - 1};
  testing::Deviation deviation("quantiles of the forecast");
  for (const testing::Row& row : testing::read_table("forecast_golden")) {
    const auto found = fill_day(rate, row.number("remaining_L"), row.number("q"));
    ASSERT_TRUE(found.has_value());
    EXPECT_LT(deviation.of(*found, row.number("days")), 2e-8);
  }
}

// Student's t, two-sided 95 %: NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.2.
TEST(StatisticsReference, TableOfStudentsT) {
  EXPECT_NEAR(student_t_quantile(0.975, 1), 12.706, 5e-4);
  EXPECT_NEAR(student_t_quantile(0.975, 5), 2.571, 5e-4);
  EXPECT_NEAR(student_t_quantile(0.975, 30), 2.042, 5e-4);
  EXPECT_NEAR(student_t_quantile(0.90, 10), 1.372, 5e-4);
}

// Sums that lose everything when added as they come; the exact results are plain.
TEST(StatisticsReference, SumsAndSpreadsOfBadlyConditionedNumbers) {
  EXPECT_EQ(sum(std::vector<double>{1, 1e100, 1, -1e100}), 2);
  const std::vector<double> shifted{1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16};
  const Spread found = spread(shifted);
  EXPECT_DOUBLE_EQ(found.mean, 1e9 + 10);
  EXPECT_DOUBLE_EQ(found.sd * found.sd, 30);
}

}  // namespace
}  // namespace benchwarden::calculations
