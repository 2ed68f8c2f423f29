#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <optional>
#include <span>
#include <vector>

#include "calculations/fill_forecast.h"
#include "calculations/invented_workshops.h"
#include "calculations/statistics.h"

// How often the day a container really fills lies inside the forecast's intervals, by simulation
// with invented workshops. The wanted shares are 80 % within 76 to 90 and 95 % within 91 to 98 for
// a steady and a weekday workshop with 90 days of history. All shares are of the histories that a
// forecast is given for; a history too thin is refused.
namespace benchwarden::calculations {
namespace {

using invented::Random;
using invented::Workshop;

/// What the label of the day to book by says in forms/calculations/fill-forecast.toml.
constexpr double kLabelPercentMax = 10;
constexpr double kLabelChangedPercentMax = 25;

/// Percent of the forecasts. `plain`: the same intervals from the mean of all days, without wander.
struct Coverage {
  double plain_80 = 0;
  double plain_95 = 0;
  double within_80 = 0;
  double within_95 = 0;
  double before_book_by = 0;
  double no_latest_95 = 0;
  double warned = 0;
};

int day_it_fills(const Workshop& workshop, Random& random, int from, double remaining) {
  double litres = 0;
  int day = 0;
  while (litres < remaining && day < 5000) litres += workshop(random, from + day++);
  return day;
}

/// Early days are shown rounded down and late ones up.
bool inside(int filled, std::optional<double> low, std::optional<double> high) {
  return filled >= std::floor(low.value_or(0)) && (!high || filled <= std::ceil(*high));
}

FillRate plain_rate(std::span<const double> daily) {
  const Spread days = spread(daily);
  const auto count = static_cast<double>(days.count);
  return {days.mean, days.sd, 1 / count, count - 1};
}

bool inside_plain(int filled, const FillRate& rate, double remaining, double q) {
  return inside(filled, fill_day(rate, remaining, q), fill_day(rate, remaining, 1 - q));
}

void count(Coverage& found, const FillForecast& forecast, int filled) {
  const auto one_if = [](bool holds) { return holds ? 1.0 : 0.0; };
  found.within_80 += one_if(inside(filled, forecast.earliest_80, forecast.latest_80));
  found.within_95 += one_if(inside(filled, forecast.earliest_95, forecast.latest_95));
  found.before_book_by += one_if(!inside(filled, forecast.earliest_95, std::nullopt));
  found.no_latest_95 += one_if(!forecast.latest_95);
  found.warned += one_if(forecast.rate_change == RateChange::kSeen);
}

Coverage simulate(const Workshop& workshop, int history_days, double remaining) {
  constexpr int kReplicates = 5000;
  Random random(20261125);
  Coverage found;
  double forecasts = 0;
  for (int replicate = 0; replicate < kReplicates; ++replicate) {
    std::vector<double> daily;
    for (int day = 0; day < history_days; ++day) daily.push_back(workshop(random, day));
    const int filled = day_it_fills(workshop, random, history_days, remaining);
    const auto forecast = fill_forecast(daily, remaining);
    if (!forecast) continue;
    ++forecasts;
    count(found, *forecast, filled);
    const FillRate plain = plain_rate(daily);
    found.plain_80 += inside_plain(filled, plain, remaining, 0.1) ? 1 : 0;
    found.plain_95 += inside_plain(filled, plain, remaining, 0.025) ? 1 : 0;
  }
  for (double* share : {&found.plain_80, &found.plain_95, &found.within_80, &found.within_95,
                        &found.before_book_by, &found.no_latest_95, &found.warned}) {
    *share *= 100 / forecasts;
  }
  return found;
}

Coverage measure(const char* name, const Workshop& workshop, int days, double remaining = 60) {
  const Coverage found = simulate(workshop, days, remaining);
  std::printf("| %s | %d | %.1f / %.1f | %.1f / %.1f | %.1f | %.1f | %.1f |\n", name, days,
              found.plain_80, found.plain_95, found.within_80, found.within_95,
              found.before_book_by, found.no_latest_95, found.warned);
  return found;
}

TEST(ForecastCoverage, ASteadyRate) {
  const Workshop every_day = invented::every_day(invented::steadily);
  const Workshop weekdays = invented::weekdays(invented::steadily);
  for (const Coverage& found :
       {measure("steady", every_day, 90), measure("weekdays only", weekdays, 90),
        measure("steady", every_day, 180), measure("steady", every_day, 28),
        measure("weekdays only", weekdays, 34)}) {
    EXPECT_GE(found.within_80, 76);
    EXPECT_LE(found.within_80, 90);
    EXPECT_GE(found.within_95, 91);
    EXPECT_LE(found.within_95, 98);
    EXPECT_LE(found.before_book_by, kLabelPercentMax);
    EXPECT_LT(found.warned, 6);
  }
}

TEST(ForecastCoverage, UnevenAdditions) {
  for (const Coverage& found :
       {measure("sparse", invented::sparse, 90, 40), measure("sparse", invented::sparse, 180, 40),
        measure("busy and quiet weeks", invented::every_day(invented::by_busy_weeks()), 90)}) {
    EXPECT_GE(found.within_80, 76);
    EXPECT_GE(found.within_95, 89);
    EXPECT_LE(found.before_book_by, kLabelPercentMax);
  }
}

TEST(ForecastCoverage, ARateThatDrifts) {
  const auto drifting = invented::drifting(0.1);
  for (const Coverage& found :
       {measure("drifting, size", invented::every_day_sized(drifting), 90),
        measure("drifting, frequency", invented::every_day(drifting), 90),
        measure("drifting, weekdays only", invented::weekdays(drifting), 90),
        measure("drifting, frequency", invented::every_day(drifting), 180)}) {
    EXPECT_GE(found.within_80, 69);
    EXPECT_GE(found.within_95, 85);
    EXPECT_GT(found.within_80, found.plain_80 + 5);
    EXPECT_LE(found.before_book_by, kLabelPercentMax);
  }
}

// Twelve weeks of uneven additions hardly show a growth of 5 % a week: counting alone, the slope is
// about 1.7 times its standard deviation. Half a year shows it.
TEST(ForecastCoverage, ARateThatChanged) {
  constexpr int kFourWeeksAgo = 62;
  const auto doubled = invented::changed_from(kFourWeeksAgo, 2);
  const auto halved = invented::changed_from(kFourWeeksAgo, 0.5);
  const auto growing = invented::growing(0.05);
  for (const Coverage& found :
       {measure("doubled four weeks ago", invented::every_day(doubled), 90),
        measure("doubled, weekdays only", invented::weekdays(doubled), 90),
        measure("growing 5 % a week", invented::every_day(growing), 180),
        measure("growing, weekdays only", invented::weekdays(growing), 180)}) {
    EXPECT_GT(found.warned, 70);
    EXPECT_GE(found.within_80, 69);
    EXPECT_LE(found.before_book_by, kLabelChangedPercentMax);
  }
  EXPECT_GT(measure("halved four weeks ago", invented::every_day(halved), 90).warned, 35);
  const Coverage early = measure("growing 5 % a week", invented::every_day(growing), 90);
  EXPECT_GT(early.warned, 22);
  EXPECT_LE(early.before_book_by, kLabelChangedPercentMax);
}

}  // namespace
}  // namespace benchwarden::calculations
