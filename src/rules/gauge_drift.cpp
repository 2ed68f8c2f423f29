#include "rules/gauge_drift.h"

#include <algorithm>
#include <cmath>

#include "calculations/due_date.h"
#include "calculations/gauge_drift.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using findings::GaugeForecast;
using findings::Subject;
using findings::Untold;

constexpr double kDaysPerYear = 365.25;

/// The errors of one gauge at one pressure, inspection by inspection.
struct Series {
  std::vector<double> years;
  std::vector<double> errors;
  CivilDate first;
  std::vector<std::uint64_t> inspections;
};

struct Inspection {
  const tallies::Record* record;
  std::vector<GaugePoint> points;
};
using Inspections = std::vector<Inspection>;

/// The inspections since the last adjustment, the newest first.
Inspections since_adjustment(const Scene& scene, const Subject& gauge) {
  Inspections found;
  for (const tallies::Record* record : NewestFirst(scene, gauge, {"tool-inspection"})) {
    auto points = points_of(*record);
    if (points.empty()) continue;
    const bool adjusted = was_adjusted(points);
    if (adjusted && !found.empty()) break;
    found.push_back({record, std::move(points)});
    if (adjusted) break;
  }
  return found;
}

Series series_at(const Scene& scene, const Inspections& newest_first, double reference) {
  Series series;
  for (auto one = newest_first.rbegin(); one != newest_first.rend(); ++one) {
    const auto point =
        std::find_if(one->points.begin(), one->points.end(),
                     [&](const GaugePoint& at) { return at.reference == reference; });
    if (point == one->points.end()) continue;
    const CivilDate day = scene.day_of(one->record->at);
    if (series.inspections.empty()) series.first = day;
    series.years.push_back(base::days_between(series.first, day) / kDaysPerYear);
    series.errors.push_back(point->as_found - reference);
    series.inspections.push_back(one->record->seq);
  }
  return series;
}

/// Where the line of the errors begins, and where it meets the limit.
struct Crossing {
  CivilDate day;
  double first_error = 0;
  double last_error = 0;
};

/// Where that lies ahead of the last inspection and no further than the inspections reach back.
base::Result<Crossing, Untold> crossing_of(const Series& series, double limit) {
  const auto drift = calculations::gauge_drift(series.years, series.errors, limit);
  if (!drift) return Untold::kTooFew;
  if (!drift->leaves) return Untold::kNotTowardsLimit;
  if (*drift->leaves <= drift->observed_years) return Untold::kBeyondAlready;
  if (drift->far_ahead) return Untold::kTooFarAhead;
  constexpr double kRounding = 1e-6;  // of a day: what meets it at midnight is not a day early
  const double days = std::floor(*drift->leaves * kDaysPerYear + kRounding);
  const auto day = calculations::days_after(series.first, static_cast<int>(days));
  if (!day) return Untold::kTooFarAhead;
  return Crossing{*day, drift->line.at(0), drift->line.at(*drift->leaves)};
}

}  // namespace

bool was_adjusted(const std::vector<GaugePoint>& points) {
  return std::any_of(points.begin(), points.end(), [](const GaugePoint& point) {
    return point.as_left && *point.as_left != point.as_found;
  });
}

base::Result<GaugeForecast, Untold> gauge_forecast(const Scene& scene, const Subject& gauge) {
  const auto facts = gauge_of(scene.attributes(gauge));
  if (!facts) return Untold::kNoClass;
  const Inspections inspections = since_adjustment(scene, gauge);
  if (inspections.empty()) return Untold::kNoPoints;
  const std::vector<GaugePoint>& latest = inspections.front().points;
  if (was_adjusted(latest)) return Untold::kAdjusted;
  const auto worst = worst_point(*facts, latest);
  if (!worst) return Untold::kNoPoints;
  Series series = series_at(scene, inspections, worst->reference);
  const auto crossing = crossing_of(series, worst->limit);
  if (!crossing) return crossing.error();
  GaugeForecast forecast;
  forecast.reference = worst->reference;
  forecast.error = worst->error;
  forecast.limit = worst->limit;
  forecast.inspections = std::move(series.inspections);
  forecast.leaves = crossing->day;
  forecast.line = {series.first, crossing->first_error, crossing->last_error};
  return forecast;
}

}  // namespace benchwarden::rules
