#include <algorithm>
#include <cmath>

#include "rules/gauge_drift.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

base::Instant time_of(const Scene& scene, const Subject& gauge, std::uint64_t inspection) {
  NewestFirst told(scene, gauge, {"tool-inspection"});
  const tallies::Record* record = told.next();
  while (record->seq != inspection) record = told.next();
  return record->at;
}

void judge_one(const Rule& rule, const Scene& scene, const Subject& gauge, Judgement& said) {
  const auto forecast = gauge_forecast(scene, gauge);
  if (!forecast) return;
  const std::vector<std::uint64_t>& inspections = forecast->inspections;
  Deadline deadline{gauge, "gauge-drift", forecast->leaves, {}, {}};
  deadline.entries = ends_of(inspections.front(), inspections.back());
  deadline.values = {{"measured", shown_number(std::abs(forecast->error), "bar")},
                     {"limit", shown_number(forecast->limit, "bar")},
                     {"point", shown_number(forecast->reference, "bar")},
                     {"count", shown_word(std::to_string(inspections.size()))},
                     {"day", shown(forecast->leaves)}};
  const std::size_t before = said.findings.size();
  judge_deadline(rule, scene, std::move(deadline), said);
  if (said.findings.size() == before) return;
  base::Instant& since = said.findings.back().since;
  // not known before the inspection that shows it
  since = std::max(since, time_of(scene, gauge, inspections.back()));
}

/// A gauge whose errors as found, over four inspections or more, run towards the limit of its
/// class: when they meet it. An adjustment starts anew.
void judge_gauge_drift(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& gauge : scene.subjects(rule, "gauge")) judge_one(rule, scene, gauge, said);
}

}  // namespace

std::vector<RuleKind> gauge_drift_kinds() {
  return {{"gauge-drift", {{"warn", {"d"}, false}}, {}, judge_gauge_drift, "gauge"}};
}

}  // namespace benchwarden::rules
