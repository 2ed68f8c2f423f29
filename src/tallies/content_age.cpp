#include "tallies/content_age.h"

#include <algorithm>
#include <iterator>
#include <limits>

#include "tallies/facts.h"

namespace benchwarden::tallies {
namespace {

/// Content that was moved to and fro more often begins with the move before that many.
constexpr int kMovesMax = 1'000;

/// Where the other end of a move stands in the events of the container; none where it is not there.
std::optional<std::size_t> place_of_out(const Timeline& timeline, const Event& in) {
  const auto& events = timeline.events();
  for (std::size_t i = timeline.count_before(in.at); i < events.size() && events[i].at == in.at;
       ++i) {
    const Event& event = events[i];
    const bool same = event.seq == in.seq && event.part == in.part && event.acts;
    if (same && event.kind == EventKind::kMovedOut) return i;
  }
  return std::nullopt;
}

}  // namespace

std::string source_of(const State& state, const Event& in) {
  for (const auto& [id, thing] : state.things("container")) {
    if (place_of_out(state.timeline(id), in)) return id;
  }
  return "";
}

ContentAges::ContentAges(const State& state)
    : ContentAges(state, [&state](const std::string& container) -> std::optional<base::Instant> {
        if (!container_facts(state.under_care(), container).counts_waste) return std::nullopt;
        return base::kEarliest;
      }) {}

std::optional<base::Instant> ContentAges::oldest(const std::string& container,
                                                 base::Instant until) {
  const auto found = before(container, state_.timeline(container).count_before(until));
  const auto from = found ? since(container) : std::nullopt;
  return found && from ? std::max(*found, *from) : found;
}

std::optional<base::Instant> ContentAges::since(const std::string& container) {
  const auto known = since_.find(container);
  if (known != since_.end()) return known->second;
  return since_.emplace(container, ask_since_(container)).first->second;
}

std::optional<base::Instant> ContentAges::before(const std::string& container, std::size_t index) {
  const Timeline& timeline = state_.timeline(container);
  const std::size_t first = timeline.standing_around(index).first;
  if (index == first) return std::nullopt;
  // A map keeps its elements in place, and what is asked on the way lies earlier: it finds of this
  // course what it needs.
  Course& course = courses_.try_emplace({container, first}, Course{first, {}}).first->second;
  for (; course.looked_to < index; ++course.looked_to) {
    const Event& event = timeline.events()[course.looked_to];
    const bool may_be_older = course.steps.empty() || event.kind == EventKind::kMovedIn;
    if (!comes_in(event) || !may_be_older) continue;
    const base::Instant start = start_of(event);
    if (!course.steps.empty() && start >= course.steps.back().second) continue;
    course.steps.emplace_back(course.looked_to, start);
  }
  const auto later = std::partition_point(course.steps.begin(), course.steps.end(),
                                          [&](const auto& step) { return step.first < index; });
  return later == course.steps.begin() ? std::nullopt : std::optional(std::prev(later)->second);
}

base::Instant ContentAges::start_of(const Event& in) {
  if (in.kind != EventKind::kMovedIn || moves_ == kMovesMax) return in.at;
  ++moves_;
  const auto carried = carried_by(in);
  --moves_;
  return carried ? std::min(*carried, in.at) : in.at;
}

std::optional<base::Instant> ContentAges::carried_by(const Event& in) {
  const std::string source = source_of(state_, in);
  const auto from = source.empty() ? std::nullopt : since(source);
  const auto place = from ? place_of_out(state_.timeline(source), in) : std::nullopt;
  const auto found = place ? before(source, *place) : std::nullopt;
  return found ? std::optional(std::max(*found, *from)) : std::nullopt;
}

}  // namespace benchwarden::tallies
