#include "calculations/gauge_drift.h"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>

namespace benchwarden::calculations {
namespace {

constexpr double kLevel = 0.95;
constexpr double kYearsAhead = 100;

enum class Side { kUpper, kLower };

/// How far the prediction bound of one side has gone beyond the limit of that side.
double beyond(const LineFit& line, Side side, double limit, double year) {
  const Interval bound = prediction_interval(line, year, kLevel);
  return side == Side::kUpper ? bound.high - limit : -limit - bound.low;
}

/// The first year, from the last inspection on, at which the bound of one side meets its limit. The
/// bound may already be beyond it: then that is now. A bound bends away from the line, so it meets
/// the limit once.
std::optional<double> bound_meets(const LineFit& line, Side side, double limit, double from) {
  if (beyond(line, side, limit, from) >= 0) return from;
  const double to = from + kYearsAhead;
  if (beyond(line, side, limit, to) < 0) return std::nullopt;
  std::uintmax_t rounds = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double year) { return beyond(line, side, limit, year); }, from, to,
      boost::math::tools::eps_tolerance<double>(48), rounds);
  return (bracket.first + bracket.second) / 2;
}

std::optional<double> either_bound_meets(const LineFit& line, double limit, double from) {
  const auto upper = bound_meets(line, Side::kUpper, limit, from);
  const auto lower = bound_meets(line, Side::kLower, limit, from);
  if (!upper || !lower) return upper ? upper : lower;
  return std::min(*upper, *lower);
}

std::optional<double> line_meets(const LineFit& line, double limit, double from) {
  if (std::abs(line.at(from)) >= limit) return from;
  if (line.slope == 0) return std::nullopt;
  const double side = line.slope > 0 ? limit : -limit;
  const double year = (side - line.intercept) / line.slope;
  return year <= from + kYearsAhead ? std::optional(year) : std::nullopt;
}

}  // namespace

Outcome<GaugeDrift> gauge_drift(std::span<const double> years, std::span<const double> errors,
                                double limit) {
  constexpr double kInspectionsMin = 4;
  const auto count = static_cast<double>(years.size());
  if (count < kInspectionsMin) {
    return Refusal{RefusalCode::kTooFew, "years", count, kInspectionsMin, 1e6};
  }
  if (const auto fits = within("limit_bar", limit, 1e-12, 1e12); !fits) return fits.error();
  const auto line = fit_line(years, errors);
  if (!line) return line.error();
  const auto [first, last] = std::minmax_element(years.begin(), years.end());
  GaugeDrift drift;
  drift.line = *line;
  drift.observed_years = *last - *first;
  drift.leaves = line_meets(*line, limit, *last);
  drift.earliest = either_bound_meets(*line, limit, *last);
  drift.far_ahead = drift.leaves && *drift.leaves - *last > drift.observed_years;
  return drift;
}

}  // namespace benchwarden::calculations
