#include <algorithm>
#include <cmath>

#include "calculations/gauge_drift.h"
#include "rules/gauge_facts.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using findings::Judgement;
using findings::Subject;

constexpr double kDaysPerYear = 365.25;

/// The errors of one gauge at one pressure, inspection by inspection.
struct Series {
  std::vector<double> years;
  std::vector<double> errors;
  CivilDate first;
  std::vector<const tallies::Record*> inspections;
};

bool was_adjusted(const std::vector<GaugePoint>& points) {
  return std::any_of(points.begin(), points.end(), [](const GaugePoint& point) {
    return point.as_left && *point.as_left != point.as_found;
  });
}

/// The inspections since the last adjustment, the newest first.
ToldOf since_adjustment(const Scene& scene, const Subject& gauge) {
  ToldOf found;
  for (const tallies::Record* inspection : told_of(scene, gauge, {"tool-inspection"})) {
    const auto points = points_of(*inspection);
    if (points.empty()) continue;
    if (was_adjusted(points) && !found.empty()) break;
    found.push_back(inspection);
    if (was_adjusted(points)) break;
  }
  return found;
}

Series series_at(const Scene& scene, const ToldOf& newest_first, double reference) {
  Series series;
  for (auto one = newest_first.rbegin(); one != newest_first.rend(); ++one) {
    const auto points = points_of(**one);
    const auto point = std::find_if(points.begin(), points.end(), [&](const GaugePoint& at) {
      return at.reference == reference;
    });
    if (point == points.end()) continue;
    const CivilDate day = scene.day_of((*one)->at);
    if (series.inspections.empty()) series.first = day;
    series.years.push_back(base::days_between(series.first, day) / kDaysPerYear);
    series.errors.push_back(point->as_found - reference);
    series.inspections.push_back(*one);
  }
  return series;
}

/// The day the line of the errors meets the limit, where that lies ahead of the last inspection and
/// no further than the inspections reach back.
std::optional<CivilDate> leaves_on(const Series& series, double limit) {
  const auto drift = calculations::gauge_drift(series.years, series.errors, limit);
  if (!drift || !drift->leaves || drift->far_ahead || *drift->leaves <= drift->observed_years) {
    return std::nullopt;
  }
  constexpr double kRounding = 1e-6;  // of a day: what meets it at midnight is not a day early
  const double days = std::floor(*drift->leaves * kDaysPerYear + kRounding);
  return calculations::days_after(series.first, static_cast<int>(days));
}

void judge_one(const Rule& rule, const Scene& scene, const Subject& gauge, Judgement& said) {
  const auto facts = gauge_of(scene.attributes(gauge));
  const ToldOf inspections = since_adjustment(scene, gauge);
  if (!facts || inspections.empty() || was_adjusted(points_of(*inspections.front()))) return;
  const auto worst = worst_point(*facts, points_of(*inspections.front()));
  if (!worst) return;
  const Series series = series_at(scene, inspections, worst->reference);
  const auto day = leaves_on(series, worst->limit);
  if (!day) return;
  const tallies::Record& last = *series.inspections.back();
  Deadline deadline{gauge, "gauge-drift", *day, {}, {}};
  deadline.entries = ends_of(*series.inspections.front(), last);
  deadline.values = {{"measured", shown_number(std::abs(worst->error), "bar")},
                     {"limit", shown_number(worst->limit, "bar")},
                     {"point", shown_number(worst->reference, "bar")},
                     {"count", shown_word(std::to_string(series.inspections.size()))},
                     {"day", shown(*day)}};
  const std::size_t before = said.findings.size();
  judge_deadline(rule, scene, std::move(deadline), said);
  if (said.findings.size() == before) return;
  base::Instant& since = said.findings.back().since;
  since = std::max(since, last.at);  // not known before the inspection that shows it
}

/// A gauge whose errors as found, over four inspections or more, run towards the limit of its
/// class: when they meet it. An adjustment starts anew.
void judge_gauge_drift(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& gauge : scene.subjects(rule, "gauge")) judge_one(rule, scene, gauge, said);
}

}  // namespace

std::vector<RuleKind> gauge_drift_kinds() {
  return {{"gauge-drift", {{"warn", {"d"}, false}}, {}, judge_gauge_drift}};
}

}  // namespace benchwarden::rules
