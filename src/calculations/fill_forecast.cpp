#include "calculations/fill_forecast.h"

#include <algorithm>
#include <cmath>

#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

constexpr double kDaysPerWeek = 7;

/// The rate in the last week of a record, if it wanders as supposed.
struct Level {
  double mean_l = 0;     ///< a week
  double variance = 0;   ///< of that mean, in units of chance_l2
  double chance_l2 = 0;  ///< variance of a week's total about its rate, L²
  double freedom = 0;
  double likelihood = 0;  ///< logarithm; up to what is common to all wanders
};

/// Follows the weeks by the recurrence of the local level model. `wander`: variance of the change
/// of the rate from week to week, in units of the chance variance.
Level follow(const WeekRecord& weeks, double wander) {
  Level level{weeks.totals_l.front(), 1, weeks.chance_squares, weeks.chance_freedom, 0};
  for (std::size_t i = 1; i < weeks.totals_l.size(); ++i) {
    const double before = level.variance + wander;
    const double surprise = weeks.totals_l[i] - level.mean_l;
    level.chance_l2 += surprise * surprise / (before + 1);
    level.freedom += 1;
    level.likelihood -= std::log(before + 1) / 2;
    level.variance = before / (before + 1);
    level.mean_l += level.variance * surprise;
  }
  level.likelihood -= level.freedom / 2 * std::log(level.chance_l2);
  level.chance_l2 /= level.freedom;
  return level;
}

/// The wander to reckon with, in units of the chance variance; see fill_forecast().
double wander_of(const WeekRecord& weeks) {
  constexpr double kWanderOfMean = 0.25;
  constexpr double kStillToWandering = 15;
  const Level still = follow(weeks, 0);
  const double supposed = kWanderOfMean * weeks.mean_l;
  const double wander = supposed * supposed / still.chance_l2;
  const Level wandering = follow(weeks, wander);
  const double odds = kStillToWandering * std::exp(still.likelihood - wandering.likelihood);
  return wander / (1 + odds);
}

/// `wander` is taken up to the day the container is likely full: later its square would grow faster
/// than anything known, and no late quantile would exist.
FillRate daily_rate(const WeekRecord& weeks, const Level& level, double wander,
                    double remaining_l) {
  const double horizon_weeks = remaining_l / std::max(level.mean_l, weeks.mean_l);
  FillRate rate;
  rate.mean_l_per_day = level.mean_l / kDaysPerWeek;
  rate.sd_l_per_day = std::sqrt(level.chance_l2 / kDaysPerWeek);
  rate.c_per_day = (level.variance + wander * (horizon_weeks / 3 + 0.5)) / kDaysPerWeek;
  rate.degrees_of_freedom = level.freedom;
  return rate;
}

base::Status<Refusal> check(std::span<const double> daily, double remaining) {
  constexpr double kLitresMax = 1e6;
  if (daily.size() < kForecastDaysMin) {
    return Refusal{RefusalCode::kTooFew, "daily_l", static_cast<double>(daily.size()),
                   kForecastDaysMin, 1e5};
  }
  constexpr double kLitresMin = 1e-6;  // of a day with any; what is less leaves no square
  for (const double litres : daily) {
    if (litres == 0) continue;
    if (auto fits = within("daily_l", litres, kLitresMin, kLitresMax); !fits) return fits;
  }
  const auto whole_weeks = daily.last(daily.size() - daily.size() % 7);
  const auto additions = std::count_if(whole_weeks.begin(), whole_weeks.end(),
                                       [](double litres) { return litres > 0; });
  if (additions < kForecastAdditionsMin) {
    return Refusal{RefusalCode::kTooFew, "additions", static_cast<double>(additions),
                   kForecastAdditionsMin, 1e5};
  }
  return within("remaining_l", remaining, 1e-6, kLitresMax);
}

}  // namespace

/// The root that belongs to the sign of k = t_df(1 - q). Squared, the equation is
/// a t² - b t + remaining² = 0; the smaller root is written so that it holds for a <= 0 as well.
std::optional<double> fill_day(const FillRate& rate, double remaining_l, double q) {
  const double k = student_t_quantile(1 - q, rate.degrees_of_freedom);
  const double chance = k * k * rate.sd_l_per_day * rate.sd_l_per_day;
  const double a = rate.mean_l_per_day * rate.mean_l_per_day - chance * rate.c_per_day;
  const double b = 2 * remaining_l * rate.mean_l_per_day + chance;
  // b² - 4 a remaining², written out so that nothing cancels near the median.
  const double root = std::sqrt(chance * (chance + 4 * remaining_l * rate.mean_l_per_day +
                                          4 * remaining_l * remaining_l * rate.c_per_day));
  if (k >= 0) return 2 * remaining_l * remaining_l / (b + root);
  if (a <= 0) return std::nullopt;  // the rate itself may be nothing: no latest day
  return (b + root) / (2 * a);
}

Outcome<FillForecast> fill_forecast(std::span<const double> daily_l, double remaining_l) {
  if (const auto fits = check(daily_l, remaining_l); !fits) return fits.error();
  const WeekRecord weeks = week_record(daily_l);
  const double wander = wander_of(weeks);
  const Level level = follow(weeks, wander);
  FillForecast forecast;
  forecast.rate = daily_rate(weeks, level, wander, remaining_l);
  forecast.earliest_95 = fill_day(forecast.rate, remaining_l, 0.025);
  forecast.earliest_80 = fill_day(forecast.rate, remaining_l, 0.1);
  forecast.median = fill_day(forecast.rate, remaining_l, 0.5);
  forecast.latest_80 = fill_day(forecast.rate, remaining_l, 0.9);
  forecast.latest_95 = fill_day(forecast.rate, remaining_l, 0.975);
  forecast.wander_percent_per_week = 100 * std::sqrt(wander * level.chance_l2) / weeks.mean_l;
  forecast.rate_change = rate_change(weeks);
  return forecast;
}

}  // namespace benchwarden::calculations
