#include "calculations/fill_forecast.h"

#include <gtest/gtest.h>

#include <cmath>

namespace benchwarden::calculations {
namespace {

/// Litres of uneven days, the same week after week but for the days' order of size.
std::vector<double> uneven_days(std::size_t count) {
  std::vector<double> daily;
  for (std::size_t day = 0; day < count; ++day) {
    daily.push_back(static_cast<double>(day * day % 11) / 4);
  }
  return daily;
}

std::vector<double> without_weekends(std::vector<double> daily) {
  for (std::size_t day = 0; day < daily.size(); ++day) {
    if (day % 7 >= 5) daily[day] = 0;
  }
  return daily;
}

TEST(FillForecast, TakesWholeWeeksOnly) {
  const std::vector<double> whole = without_weekends(uneven_days(35));
  const auto expected = fill_forecast(whole, 40);
  ASSERT_TRUE(expected.ok());
  for (std::size_t more = 1; more < 7; ++more) {
    std::vector<double> longer(more, 9.0);
    longer.insert(longer.end(), whole.begin(), whole.end());
    const auto found = fill_forecast(longer, 40);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->median, expected->median) << more;
    EXPECT_EQ(found->earliest_95, expected->earliest_95) << more;
    EXPECT_EQ(found->latest_95, expected->latest_95) << more;
  }
}

TEST(FillForecast, IsNotWidenedByFreeWeekends) {
  std::vector<double> daily;
  for (int day = 0; day < 56; ++day) daily.push_back(day % 7 < 5 ? 2.0 : 0.0);
  const auto found = fill_forecast(daily, 60);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(*found->median, 42, 1e-6);
  EXPECT_NEAR(*found->earliest_95, 42, 0.01);
  EXPECT_NEAR(*found->latest_95, 42, 0.01);
}

TEST(FillForecast, AnswersToEqualDaysWithOneDay) {
  const auto found = fill_forecast(std::vector<double>(90, 0.1), 5);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(*found->median, 50, 1e-6);
  EXPECT_NEAR(*found->earliest_95, 50, 0.01);
  EXPECT_NEAR(*found->latest_95, 50, 0.01);
  EXPECT_EQ(found->rate_change, RateChange::kNotSeen);
}

TEST(FillForecast, SupposesNoMoreWanderThanTheLargest) {
  const auto found = fill_forecast(uneven_days(91), 60);
  ASSERT_TRUE(found.ok());
  EXPECT_GT(found->wander_percent_per_week, 0);
  EXPECT_LT(found->wander_percent_per_week, 25.5);
  EXPECT_EQ(found->rate_change, RateChange::kNotSeen);
  EXPECT_LT(*found->earliest_95, *found->earliest_80);
  EXPECT_LT(*found->earliest_80, *found->median);
  EXPECT_LT(*found->median, *found->latest_80);
  EXPECT_LT(*found->latest_80, *found->latest_95);
}

TEST(FillForecast, FollowsARateThatChanged) {
  std::vector<double> daily = uneven_days(91);
  const double usual = fill_forecast(daily, 60)->rate.mean_l_per_day;
  for (std::size_t day = 63; day < 91; ++day) daily[day] *= 3;
  const auto found = fill_forecast(daily, 60);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->rate_change, RateChange::kSeen);
  EXPECT_GT(found->wander_percent_per_week, 10);
  const double plain_mean = usual * (63 + 28 * 3) / 91;
  EXPECT_GT(found->rate.mean_l_per_day, 1.2 * plain_mean);
  EXPECT_LT(found->rate.mean_l_per_day, 3.2 * usual);
}

TEST(FillForecast, StaysFiniteForAContainerNoLongerUsed) {
  std::vector<double> daily = uneven_days(2000);
  daily.resize(4000, 0.0);
  const auto found = fill_forecast(daily, 60);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->rate_change, RateChange::kSeen);
  EXPECT_TRUE(std::isfinite(*found->earliest_95));
  EXPECT_TRUE(std::isfinite(*found->median));
  EXPECT_FALSE(found->latest_80.has_value());
}

TEST(FillForecast, CountsTheAdditionsOfTheWholeWeeks) {
  std::vector<double> daily(34, 0.0);
  for (const std::size_t day : {0U, 10U, 15U, 20U, 25U}) daily[day] = 2;
  const auto few = fill_forecast(daily, 10);
  ASSERT_FALSE(few.ok());
  EXPECT_EQ(few.error().name, "additions");
  EXPECT_EQ(few.error().value, 4);
  daily[30] = 2;
  EXPECT_TRUE(fill_forecast(daily, 10).ok());
}

TEST(FillForecast, CannotTellAChangeFromFewWeeks) {
  std::vector<double> daily = uneven_days(28);
  daily.resize(55, 40.0);
  EXPECT_EQ(rate_change(week_record(daily)), RateChange::kTooFewWeeks);
  daily.push_back(40.0);
  EXPECT_EQ(rate_change(week_record(daily)), RateChange::kSeen);
}

}  // namespace
}  // namespace benchwarden::calculations
