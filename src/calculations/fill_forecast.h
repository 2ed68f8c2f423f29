#pragma once

#include <optional>
#include <span>

#include "calculations/refusal.h"
#include "calculations/week_record.h"

namespace benchwarden::calculations {

/// What is known of the rate at which a container fills. The total of the next t days has mean
/// `mean` t and variance sd² (t + c t²): sd² t is what chance does from day to day, sd² c t² what
/// is not known of the rate itself.
struct FillRate {
  double mean_l_per_day = 0;
  double sd_l_per_day = 0;
  double c_per_day = 0;
  double degrees_of_freedom = 0;
};

/// The q-quantile, in days, of the day t on which `remaining_l` have come in, from
/// remaining - mean t = t_df(1 - q) sd sqrt(t + c t²). None: so little is known of the rate that no
/// day is late enough. 0 < q < 1, mean > 0, remaining > 0.
std::optional<double> fill_day(const FillRate& rate, double remaining_l, double q);

/// Days from now at which a container will have taken what is left to its working limit, by the
/// record of what came in on each past day. None: the history does not bound that side.
struct FillForecast {
  std::optional<double> earliest_95;  ///< 2.5 % quantile: the day to have a collection booked by
  std::optional<double> earliest_80;  ///< 10 %
  std::optional<double> median;
  std::optional<double> latest_80;  ///< 90 %
  std::optional<double> latest_95;  ///< 97.5 %
  FillRate rate;
  double wander_percent_per_week = 0;  ///< how much the rate changes from week to week, supposed
  RateChange rate_change = RateChange::kTooFewWeeks;
};

constexpr unsigned kForecastDaysMin = 28;
constexpr unsigned kForecastAdditionsMin = 5;

/// `daily_l`: litres that came in on each day, oldest first, days without any as 0; 28 days or more
/// (kTooFew: daily_l) and 5 additions or more in its whole weeks (kTooFew: additions). 0, or 1e-6
/// to 1e6 L a day. 0 < `remaining_l` <= 1e6.
///
/// Method, deterministic: only whole weeks count (WeekRecord). The rate may wander: each week's is
/// that of the week before and a change of variance W. Two suppositions are compared by how likely
/// they make the weeks: the rate stands still, or it wanders by 25 % of the mean a week. Standing
/// still has fifteen times the weight beforehand. W is the average of the two, weighted so. With it
/// the weeks are followed from first to last (a local level model: the larger W, the more the later
/// weeks count), which gives the rate now, its variance P and the chance variance s² of a week; P
/// and W are in units of s². Over the H weeks until it is likely full (what remains over the rate
/// now or the mean, whichever is larger) a wandering rate is off by W (H/3 + 1/2) more in the mean
/// of squares: c = (P + W (H/3 + 1/2)) / 7 a day. When W is 0, c is one over the number of days.
///
/// 25 % and fifteen to one are chosen by simulation, so that the intervals of a steady workshop
/// stay near what they claim. tests/calculations measures and prints the coverage, DEVELOPERS.md
/// shows it: a container is full before the 2.5 % day in 2 to 10 of 100, in up to 25 after a
/// change.
///
/// What breaks it: filling is taken as even, so a container that gets all of a week on one day may
/// be full as many days sooner as lie between two additions; a rate that goes on growing, a change
/// that has not happened yet, a holiday or a big job ahead, oil that was not logged, additions so
/// rare that few weeks hold any.
Outcome<FillForecast> fill_forecast(std::span<const double> daily_l, double remaining_l);

}  // namespace benchwarden::calculations
