#include <algorithm>

#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using tallies::Event;
using tallies::EventKind;

constexpr int kLevelMonths = 6;
constexpr int kStreamMonths = 12;

base::CivilMonth months_before(base::CivilMonth month, int count) {
  const int index = month.year * 12 + month.month - 1 - count;
  return {index / 12, index % 12 + 1};
}

bool ends_a_day(const Event& event, const Event* next, const base::Zone& zone) {
  return next == nullptr || zone.date_of(next->at) != zone.date_of(event.at);
}

bool takes_away(const Event& event) {
  return event.kind == EventKind::kTaken || event.kind == EventKind::kEmptied;
}

/// Of each day the level at its end, so that a busy container makes no thicker chart; what was
/// taken away keeps its own step, and so does what stood there just before.
void tell_steps(LevelCourse& course, const tallies::Timeline& timeline, base::Instant from,
                const Month& month) {
  const std::size_t first = timeline.count_before(from);
  const std::size_t last = timeline.count_before(month.until);
  const tallies::Events& events = timeline.events();
  for (std::size_t i = first; i < last; ++i) {
    const Event* next = i + 1 < last ? &events[i + 1] : nullptr;
    const bool kept = takes_away(events[i]) || ends_a_day(events[i], next, month.zone) ||
                      (next != nullptr && takes_away(*next));
    if (!kept) continue;
    course.steps.push_back({month.zone.local(events[i].at), events[i].level});
    const bool collected = events[i].kind == EventKind::kTaken && events[i].acts;
    if (collected) course.collected.push_back(course.steps.back().at);
  }
}

bool held_something(const LevelCourse& course) {
  return course.opening != 0 || std::any_of(course.steps.begin(), course.steps.end(),
                                            [](const auto& step) { return step.level != 0; });
}

LevelCourse level_course(const WasteMonthInput& input, const ContainerFigures& container,
                         base::Instant from, const Month& month) {
  LevelCourse course;
  course.container = container.id;
  course.name = container.name;
  course.counted_by = container.stream.counted_by;
  if (const tallies::Thing* thing = input.state.thing("container", container.id)) {
    course.working_limit = tallies::working_limit(thing->attributes, container.stream);
  }
  const tallies::Timeline& timeline = input.state.timeline(container.id);
  course.opening = timeline.level_at(from);
  tell_steps(course, timeline, from, month);
  const auto filling = input.fillings.find(container.id);
  if (filling != input.fillings.end()) course.filling = filling->second;
  return course;
}

StreamCourse stream_course(const WasteMonthInput& input, const tallies::StreamFacts& facts,
                           const Month& month) {
  StreamCourse course{facts, {}};
  for (int back = kStreamMonths - 1; back >= 0; --back) {
    const base::CivilMonth one = months_before(input.month, back);
    if (one.year < base::kFirstDay.year) continue;
    const base::Instant until = std::min(month.zone.start_of(base::next_month(one)), month.until);
    const base::Instant from = std::min(month.zone.start_of(one), until);
    course.arisen.emplace_back(one, tallies::arisen(input.state, facts.id, from, until));
  }
  return course;
}

}  // namespace

void tell_courses(WasteMonthFigures& figures, const WasteMonthInput& input, const Month& month) {
  const base::CivilMonth first = months_before(input.month, kLevelMonths - 1);
  const base::Instant from = month.zone.start_of(std::max(first, base::month_of(base::kFirstDay)));
  figures.levels_from = month.zone.local(from);
  for (const ContainerFigures& container : figures.containers) {
    if (!container.counts_waste) continue;
    LevelCourse course = level_course(input, container, from, month);
    if (held_something(course)) figures.levels.push_back(std::move(course));
  }
  for (const StreamFigures& stream : figures.streams) {
    figures.courses.push_back(stream_course(input, stream.facts, month));
  }
}

}  // namespace benchwarden::reports
