#pragma once

#include <optional>
#include <span>

#include "calculations/refusal.h"

namespace benchwarden::calculations {

/// Days from now at which a container will have taken what is left to its working limit, by the
/// record of what came in on each past day. None: the history does not bound that side.
struct FillForecast {
  std::optional<double> earliest_95;  ///< 2.5 % quantile: the day to have a collection booked by
  std::optional<double> earliest_80;  ///< 10 %
  std::optional<double> median;
  std::optional<double> latest_80;  ///< 90 %
  std::optional<double> latest_95;  ///< 97.5 %
  double mean_l_per_day = 0;
  double sd_l_per_day = 0;
  bool rate_changed = false;  ///< the last 28 days differ from those before: trust it less
};

constexpr unsigned kForecastDaysMin = 28;
constexpr unsigned kForecastAdditionsMin = 5;

/// `daily_l`: litres that came in on each day, oldest first, days without any as 0; 28 days or more
/// and 5 additions or more (kTooFew: daily_l, additions). `remaining_l` > 0.
/// The q-quantile of the day t solves remaining - m t = t_{n-1}(1 - q) s sqrt(t + t² / n), with
/// mean m and standard deviation s of n days: daily amounts taken as independent and alike, t² / n
/// is the uncertainty of the mean. Deterministic. Fewer containers than stated fill late, more
/// fill early: tests/calculations measures and prints how many.
Outcome<FillForecast> fill_forecast(std::span<const double> daily_l, double remaining_l);

}  // namespace benchwarden::calculations
