#pragma once

#include <span>
#include <vector>

namespace benchwarden::calculations {

/// A record of daily litres as whole weeks, counted back from its last day. Up to six days at its
/// start are left out: part of a week would count some weekdays more often than others.
struct WeekRecord {
  std::vector<double> totals_l;  ///< oldest first
  double mean_l = 0;             ///< of the totals
  /// What chance alone does to a week's total, from inside the weeks: seven times the sum of
  /// squares, L², that neither the week nor the day of the week explains, with its degrees of
  /// freedom. Independent of the totals. Never less than what rounding leaves of equal numbers.
  double chance_squares = 0;
  double chance_freedom = 0;
};

/// Two weeks of days or more, asserted.
WeekRecord week_record(std::span<const double> daily_l);

enum class RateChange {
  kSeen,         ///< the weeks differ by more than chance explains
  kNotSeen,      ///< which is no proof that there is none
  kTooFewWeeks,  ///< fewer than eight cannot tell
};

/// The last four weeks against those before, and a straight line through all of them, each by a t
/// test at 3 %: a steady rate is called changed in less than 6 of 100 records. Weeks that are busy
/// and quiet by chance are called so more often, a slow growth seldom before half a year.
RateChange rate_change(const WeekRecord& weeks);

}  // namespace benchwarden::calculations
