#include "calculations/fill_forecast.h"

#include <algorithm>
#include <cmath>

#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

struct Rate {
  double mean = 0;
  double sd = 0;
  double days = 0;
};

/// The root of remaining - m t = k s sqrt(t + t² / n) that belongs to the sign of k. Squared, it is
/// a t² - b t + remaining² = 0; the smaller root is written so that it holds for a <= 0 as well.
std::optional<double> quantile_day(const Rate& rate, double remaining, double q) {
  const double k = student_t_quantile(1 - q, rate.days - 1);
  const double spread = k * k * rate.sd * rate.sd;
  const double a = rate.mean * rate.mean - spread / rate.days;
  const double b = 2 * remaining * rate.mean + spread;
  const double root = std::sqrt(std::max(0.0, b * b - 4 * a * remaining * remaining));
  if (k >= 0) return 2 * remaining * remaining / (b + root);
  if (a <= 0) return std::nullopt;  // the mean itself may be nothing: no latest day
  return (b + root) / (2 * a);
}

/// Whether the last 28 days differ from the days before them by more than chance explains: Welch's
/// t test at 5 %, with the smaller number of days as the degrees of freedom, which is cautious.
bool rate_changed(std::span<const double> daily) {
  const std::size_t recent_days = kForecastDaysMin;
  if (daily.size() < 2 * recent_days) return false;
  const Spread before = spread(daily.first(daily.size() - recent_days));
  const Spread recent = spread(daily.last(recent_days));
  const auto variance_of_mean = [](const Spread& s) {
    return s.sd * s.sd / static_cast<double>(s.count);
  };
  const double sd = std::sqrt(variance_of_mean(before) + variance_of_mean(recent));
  if (sd <= 0) return before.mean != recent.mean;
  const double t = std::abs(recent.mean - before.mean) / sd;
  const double freedom = static_cast<double>(std::min(before.count, recent.count)) - 1;
  return t > student_t_quantile(0.975, freedom);
}

base::Status<Refusal> check(std::span<const double> daily, double remaining) {
  constexpr double kLitresMax = 1e6;
  if (daily.size() < kForecastDaysMin) {
    return Refusal{RefusalCode::kTooFew, "daily_l", static_cast<double>(daily.size()),
                   kForecastDaysMin, 1e5};
  }
  for (const double litres : daily) {
    if (auto fits = within("daily_l", litres, 0, kLitresMax); !fits) return fits;
  }
  const auto additions =
      std::count_if(daily.begin(), daily.end(), [](double litres) { return litres > 0; });
  if (additions < kForecastAdditionsMin) {
    return Refusal{RefusalCode::kTooFew, "additions", static_cast<double>(additions),
                   kForecastAdditionsMin, 1e5};
  }
  return within("remaining_l", remaining, 1e-6, kLitresMax);
}

}  // namespace

Outcome<FillForecast> fill_forecast(std::span<const double> daily_l, double remaining_l) {
  if (const auto fits = check(daily_l, remaining_l); !fits) return fits.error();
  const Spread days = spread(daily_l);
  const Rate rate{days.mean, days.sd, static_cast<double>(days.count)};
  FillForecast forecast;
  forecast.earliest_95 = quantile_day(rate, remaining_l, 0.025);
  forecast.earliest_80 = quantile_day(rate, remaining_l, 0.1);
  forecast.median = quantile_day(rate, remaining_l, 0.5);
  forecast.latest_80 = quantile_day(rate, remaining_l, 0.9);
  forecast.latest_95 = quantile_day(rate, remaining_l, 0.975);
  forecast.mean_l_per_day = rate.mean;
  forecast.sd_l_per_day = rate.sd;
  forecast.rate_changed = rate_changed(daily_l);
  return forecast;
}

}  // namespace benchwarden::calculations
