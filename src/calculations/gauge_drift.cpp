#include "calculations/gauge_drift.h"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>

namespace benchwarden::calculations {
namespace {

constexpr double kLevel = 0.95;
constexpr double kYearsAhead = 100;

/// How far the outer prediction bound has gone beyond the limit: on the side the line moves to.
double beyond(const LineFit& line, double limit, double year) {
  const Interval bound = prediction_interval(line, year, kLevel);
  return line.slope >= 0 ? bound.high - limit : -limit - bound.low;
}

/// The first year, from the last inspection on, at which the bound meets the limit. The bound may
/// already be beyond it: then that is now.
std::optional<double> bound_meets(const LineFit& line, double limit, double from) {
  if (beyond(line, limit, from) >= 0) return from;
  const double to = from + kYearsAhead;
  if (beyond(line, limit, to) < 0) return std::nullopt;
  std::uintmax_t rounds = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double year) { return beyond(line, limit, year); }, from, to,
      boost::math::tools::eps_tolerance<double>(48), rounds);
  return (bracket.first + bracket.second) / 2;
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
  drift.earliest = bound_meets(*line, limit, *last);
  drift.far_ahead = drift.leaves && *drift.leaves - *last > drift.observed_years;
  return drift;
}

}  // namespace benchwarden::calculations
