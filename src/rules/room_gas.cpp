#include "rules/room_gas.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>

#include "calculations/nitrogen_content.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Subject;

std::optional<double> content_m3(const entries::Fields& cylinder) {
  if (const auto label = number_of(cylinder, "content_m3", "m3")) return label;
  const auto capacity = number_of(cylinder, "water_capacity_l", "l");
  const auto pressure = number_of(cylinder, "working_pressure_bar", "bar");
  if (!capacity || !pressure) return std::nullopt;
  const calculations::GasBase base;
  const auto full = absolute(quantities::bar_gauge(*pressure), base.pressure);
  const auto mass =
      calculations::nitrogen_mass(quantities::litres(*capacity), full, base.temperature);
  if (!mass) return std::nullopt;
  const auto volume = calculations::nitrogen_volume(*mass, base);
  if (!volume) return std::nullopt;
  return volume->si();
}

/// Whether the last change by then sent it back.
bool is_away(const ToldOf& changes_newest_first, base::Instant moment) {
  const auto last = std::partition_point(changes_newest_first.begin(), changes_newest_first.end(),
                                         [&](const auto* change) { return change->at > moment; });
  if (last == changes_newest_first.end()) return false;
  return (*last)->word("change") == "returned";
}

double content_in(const std::string& room, const tallies::Thing& cylinder) {
  const bool here = !cylinder.retired && tallies::word(cylinder.attributes, "room") == room &&
                    tallies::word(cylinder.attributes, "gas") == "nitrogen";
  return here ? content_m3(cylinder.attributes).value_or(0) : 0;
}

void release(double& sum, double content, Release how) {
  sum = how == Release::kLargest ? std::max(sum, content) : sum + content;
}

ToldOf changes_of(const Scene& scene, const Subject& cylinder) {
  return told_of(scene, cylinder, {"cylinder-change"});
}

}  // namespace

double room_gas(const Scene& scene, const Subject& room, Release how) {
  double sum = 0;
  for (const auto& [id, thing] : scene.state().things("cylinder")) {
    const double content = content_in(room.id, thing);
    if (content > 0 && !is_away(changes_of(scene, {"cylinder", id}), scene.now())) {
      release(sum, content, how);
    }
  }
  return sum;
}

RoomGasCourse::RoomGasCourse(const Scene& scene, const Subject& room, Release release)
    : release_(release) {
  for (const auto& [id, thing] : scene.state().things("cylinder")) {
    cylinders_.push_back(steps_of(scene, {"cylinder", id}, room.id));
  }
}

RoomGasCourse::Steps RoomGasCourse::steps_of(const Scene& scene, const Subject& cylinder,
                                             const std::string& room) {
  const tallies::Register& under_care = scene.state().under_care();
  const ToldOf changes = changes_of(scene, cylinder);
  auto said = under_care.said_at(cylinder.thing_class, cylinder.id);
  const base::Instant entered = said.front();
  std::sort(said.begin(), said.end());
  std::vector<base::Instant> moments = said;
  for (const tallies::Record* change : changes) moments.push_back(change->at);
  std::sort(moments.begin(), moments.end());
  Steps steps;
  double entered_with = 0;
  for (const base::Instant moment : moments) {
    // It is not known to have stood there before its first entry.
    if (moment > scene.now() || moment < entered) continue;
    if (std::binary_search(said.begin(), said.end(), moment)) {
      const auto thing = under_care.thing_at(cylinder.thing_class, cylinder.id, moment);
      entered_with = thing ? content_in(room, *thing) : 0;
    }
    const double content = is_away(changes, moment) ? 0 : entered_with;
    if (content != (steps.empty() ? 0 : steps.back().second)) steps.emplace_back(moment, content);
  }
  return steps;
}

double RoomGasCourse::at(base::Instant moment) const {
  double sum = 0;
  for (const Steps& steps : cylinders_) {
    const auto later = std::partition_point(steps.begin(), steps.end(),
                                            [&](const auto& step) { return step.first <= moment; });
    if (later != steps.begin()) release(sum, std::prev(later)->second, release_);
  }
  return sum;
}

std::vector<base::Instant> RoomGasCourse::turns() const {
  std::vector<base::Instant> all;
  for (const Steps& steps : cylinders_) {
    for (const auto& step : steps) all.push_back(step.first);
  }
  return all;
}

}  // namespace benchwarden::rules
