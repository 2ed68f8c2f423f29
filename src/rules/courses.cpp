#include "rules/courses.h"

#include <algorithm>
#include <map>

#include "rules/gas_loss.h"
#include "rules/gauge_drift.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::CylinderCourse;
using findings::CylinderMoment;
using findings::GaugeCourse;
using findings::Subject;
using findings::Untold;
using tallies::Record;

const Rule* loss_rule(const RuleBook& book, const Scene& scene, const Subject& cylinder) {
  const auto found = std::find_if(book.rules().begin(), book.rules().end(), [&](const Rule& rule) {
    return rule.kind == "gas-loss" && !rule.off && scene.applies(rule, cylinder);
  });
  return found == book.rules().end() ? nullptr : &*found;
}

/// What the entry tells by itself.
CylinderMoment moment_of(const Scene& scene, const Subject& cylinder, const Record& record) {
  CylinderMoment moment;
  moment.entry = record.seq;
  moment.at = record.at;
  moment.kind = record.kind;
  moment.filling = is_filling(record);
  moment.pressure = record.measure("gauge_pressure_bar", "bar");
  moment.temperature = record.measure("ambient_temperature_c", "c");
  moment.change = record.word("change");
  if (record.kind == "gas-use") {
    moment.used = use_of(record);
    return moment;
  }
  const auto content = content_at(scene, cylinder, record);
  const bool reads =
      record.kind == "cylinder-check" || content.ok() || content.error() != Untold::kNoPressure;
  if (reads) moment.content = content;
  return moment;
}

/// The losses at one check of a filling.
void add_losses(std::optional<GasLosses>& losses, const ToldOf& checks, std::size_t at,
                CylinderMoment& moment) {
  if (!moment.content->ok()) {
    moment.loss = moment.content->error();
  } else if (!losses) {
    moment.loss = Untold::kNoRule;
  } else if (at + 1 == checks.size()) {
    moment.loss = Untold::kFirstOfFilling;
  } else {
    moment.loss = losses->between(*checks[at + 1], *checks[at]);
    moment.beyond = losses->at(checks, at).beyond;
  }
}

}  // namespace

CylinderCourse cylinder_course(const RuleBook& book, const Scene& scene, const std::string& id) {
  const Subject cylinder{"cylinder", id};
  ToldOf told = told_of(scene, cylinder, {"cylinder-check", "cylinder-change", "gas-use"});
  std::reverse(told.begin(), told.end());
  CylinderCourse course;
  std::map<std::uint64_t, std::size_t> places;  // of the first moment of each entry
  for (const Record* record : told) {
    places.emplace(record->seq, course.size());
    course.push_back(moment_of(scene, cylinder, *record));
  }
  const Rule* rule = loss_rule(book, scene, cylinder);
  std::optional<GasLosses> losses;
  if (rule != nullptr) losses.emplace(*rule, scene, cylinder);
  for (const ToldOf& checks : checks_by_filling(scene, cylinder)) {
    for (std::size_t at = 0; at < checks.size(); ++at) {
      add_losses(losses, checks, at, course[places.at(checks[at]->seq)]);
    }
  }
  return course;
}

GaugeCourse gauge_course(const Scene& scene, const Subject& gauge) {
  const auto facts = gauge_of(scene.attributes(gauge));
  ToldOf told = told_of(scene, gauge, {"tool-inspection"});
  std::reverse(told.begin(), told.end());
  GaugeCourse course;
  for (const Record* inspection : told) {
    findings::GaugeMoment moment;
    moment.entry = inspection->seq;
    moment.at = inspection->at;
    const auto points = points_of(*inspection);
    moment.adjusted = was_adjusted(points);
    for (const GaugePoint& point : points) {
      findings::GaugeError error{point.reference, point.as_found, point.as_left, std::nullopt,
                                 false};
      if (facts) {
        const auto limit =
            calculations::error_limit(*facts->gauge_class, facts->scale, point.reference);
        if (limit) {
          error.limit = *limit;
          error.beyond = !is_within(point.as_found - point.reference, *limit);
        }
      }
      moment.points.push_back(error);
    }
    course.moments.push_back(std::move(moment));
  }
  course.forecast = gauge_forecast(scene, gauge);
  return course;
}

}  // namespace benchwarden::rules
