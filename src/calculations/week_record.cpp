#include "calculations/week_record.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "calculations/line_fit.h"
#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

constexpr std::size_t kDays = 7;
constexpr std::size_t kRecentWeeks = 4;

/// Sum of squares of each day less its week's mean and its weekday's mean, both about the mean of
/// all. `daily`: whole weeks.
double unexplained_squares(std::span<const double> daily, const WeekRecord& weeks) {
  const double mean = weeks.mean_l / kDays;
  std::array<double, kDays> weekday{};
  for (std::size_t i = 0; i < daily.size(); ++i) weekday.at(i % kDays) += daily[i];
  const auto count = static_cast<double>(weeks.totals_l.size());
  double squares = 0;
  for (std::size_t i = 0; i < daily.size(); ++i) {
    const double week_mean = weeks.totals_l[i / kDays] / kDays;
    const double rest = daily[i] - week_mean - weekday.at(i % kDays) / count + mean;
    squares += rest * rest;
  }
  return squares;
}

/// Whether an effect is beyond chance. `variance_factor`: variance of the effect over that of a
/// week; `squares` and `freedom`: what the effect leaves unexplained of the totals.
bool beyond_chance(const WeekRecord& weeks, double effect, double variance_factor, double squares,
                   double freedom) {
  constexpr double kLevel = 0.03;
  const double all_freedom = weeks.chance_freedom + freedom;
  const double variance = (weeks.chance_squares + squares) / all_freedom;
  const double t = std::abs(effect) / std::sqrt(variance * variance_factor);
  return t > student_t_quantile(1 - kLevel / 2, all_freedom);
}

bool stepped(const WeekRecord& weeks) {
  const std::span<const double> totals = weeks.totals_l;
  const Spread before = spread(totals.first(totals.size() - kRecentWeeks));
  const Spread recent = spread(totals.last(kRecentWeeks));
  const auto squares = [](const Spread& s) {
    return s.sd * s.sd * (static_cast<double>(s.count) - 1);
  };
  const double factor =
      1 / static_cast<double>(before.count) + 1 / static_cast<double>(recent.count);
  return beyond_chance(weeks, recent.mean - before.mean, factor, squares(before) + squares(recent),
                       static_cast<double>(totals.size()) - 2);
}

bool sloped(const WeekRecord& weeks) {
  std::vector<double> number(weeks.totals_l.size());
  for (std::size_t i = 0; i < number.size(); ++i) number[i] = static_cast<double>(i);
  const auto fit = fit_line(number, weeks.totals_l);
  assert(fit.ok());
  const double squares = fit->residual_sd * fit->residual_sd * fit->degrees_of_freedom();
  return beyond_chance(weeks, fit->slope, 1 / fit->squares_x, squares, fit->degrees_of_freedom());
}

}  // namespace

WeekRecord week_record(std::span<const double> daily_l) {
  const std::size_t count = daily_l.size() / kDays;
  assert(count >= 2);
  const std::span<const double> daily = daily_l.last(count * kDays);
  WeekRecord weeks;
  for (std::size_t i = 0; i < count; ++i) {
    weeks.totals_l.push_back(sum(daily.subspan(i * kDays, kDays)));
  }
  weeks.mean_l = spread(weeks.totals_l).mean;
  weeks.chance_freedom = static_cast<double>((count - 1) * (kDays - 1));
  constexpr double kRounding = 1e-10;  // of the mean, squared
  weeks.chance_squares = std::max(kDays * unexplained_squares(daily, weeks),
                                  kRounding * weeks.mean_l * weeks.mean_l * weeks.chance_freedom);
  return weeks;
}

RateChange rate_change(const WeekRecord& weeks) {
  if (weeks.totals_l.size() < 2 * kRecentWeeks) return RateChange::kTooFewWeeks;
  return stepped(weeks) || sloped(weeks) ? RateChange::kSeen : RateChange::kNotSeen;
}

}  // namespace benchwarden::calculations
