#include "tallies/timeline.h"

#include <algorithm>
#include <cassert>
#include <iterator>
#include <limits>

namespace benchwarden::tallies {
namespace {

bool is_inwards(EventKind kind) { return kind == EventKind::kAdded || kind == EventKind::kMovedIn; }

/// Something went in and nobody said how much. One that is struck out looks the same.
bool is_unmeasured(const Event& event) {
  return is_inwards(event.kind) && !event.whole && event.amount == 0;
}

/// Readings, handling and what came in unmeasured: few beside the flows, and asked for by kind.
bool is_moment(const Event& event) {
  return event.kind >= EventKind::kRead || is_unmeasured(event);
}

void count(Movement& sum, const Event& event) {
  const std::int64_t corrected = event.amount - event.original;
  switch (event.kind) {
    case EventKind::kAdded:
      sum.added += event.original;
      sum.corrections += corrected;
      break;
    case EventKind::kMovedIn:
      sum.moved_in += event.original;
      sum.corrections += corrected;
      break;
    case EventKind::kMovedOut:
      sum.moved_out += event.original;
      sum.corrections -= corrected;
      break;
    case EventKind::kTaken:
      sum.taken += event.original;
      sum.corrections -= corrected;
      break;
    case EventKind::kEmptied:
      sum.emptied += event.amount;
      break;
    case EventKind::kRead:
    case EventKind::kPlaced:
    case EventKind::kSealed:
      break;
  }
}

}  // namespace

bool comes_in(const Event& event) { return is_inwards(event.kind) && event.amount > 0; }

std::size_t Timeline::index_at(base::Instant until) const {
  const auto place = std::partition_point(events_.begin(), events_.end(),
                                          [&](const Event& event) { return event.at < until; });
  return static_cast<std::size_t>(place - events_.begin());
}

std::int64_t Timeline::level_before(std::size_t index) const {
  return index == 0 ? 0 : events_[index - 1].level;
}

std::int64_t Timeline::level_at(base::Instant until) const { return level_before(index_at(until)); }

std::int64_t Timeline::level() const { return level_before(events_.size()); }

Movement Timeline::movement(base::Instant from, base::Instant until) const {
  const std::size_t first = index_at(from);
  const std::size_t last = std::max(first, index_at(until));
  Movement sum;
  sum.opening = level_before(first);
  for (std::size_t i = first; i < last; ++i) count(sum, events_[i]);
  sum.closing = level_before(last);
  assert(sum.opening + sum.added + sum.moved_in - sum.moved_out - sum.taken - sum.emptied +
             sum.corrections ==
         sum.closing);
  return sum;
}

std::int64_t Timeline::arisen(base::Instant from, base::Instant until) const {
  const std::size_t last = index_at(until);
  std::int64_t sum = 0;
  for (std::size_t i = index_at(from); i < last; ++i) {
    if (events_[i].arises) sum += events_[i].amount;
  }
  return sum;
}

std::optional<base::Instant> Timeline::oldest_content(base::Instant until) const {
  const std::size_t last = index_at(until);
  for (std::size_t i = standing_around(last).first; i < last; ++i) {
    if (comes_in(events_[i])) return events_[i].at;
  }
  return std::nullopt;
}

Standing Timeline::standing_around(std::size_t index) const {
  const auto empties = [&](std::uint32_t moment) {
    return events_[moment].kind == EventKind::kEmptied && events_[moment].acts;
  };
  const auto here = std::lower_bound(moments_.begin(), moments_.end(), index);
  const auto before = std::find_if(std::make_reverse_iterator(here), moments_.rend(), empties);
  const auto after = std::find_if(here, moments_.end(), empties);
  return {before == moments_.rend() ? 0 : *before + std::size_t{1},
          after == moments_.end() ? events_.size() : *after};
}

bool Timeline::holds_unmeasured(base::Instant until) const {
  auto moment = std::lower_bound(moments_.begin(), moments_.end(), index_at(until));
  while (moment != moments_.begin()) {
    const Event& event = events_[*--moment];
    if (!event.acts) continue;
    if (event.kind == EventKind::kEmptied) return false;
    if (is_unmeasured(event)) return true;
  }
  return false;
}

std::optional<Reading> Timeline::last_reading(base::Instant from, base::Instant until) const {
  auto moment = std::lower_bound(moments_.begin(), moments_.end(), index_at(until));
  while (moment != moments_.begin()) {
    const Event& event = events_[*--moment];
    if (event.at < from) break;
    if (event.kind == EventKind::kRead && event.acts) {
      return Reading{event.at, event.seq, event.amount, event.level};
    }
  }
  return std::nullopt;
}

bool Timeline::sealed(base::Instant until) const {
  auto moment = std::lower_bound(moments_.begin(), moments_.end(), index_at(until));
  while (moment != moments_.begin()) {
    const Event& event = events_[*--moment];
    if (!event.acts || event.kind <= EventKind::kRead) continue;
    return event.kind == EventKind::kSealed;
  }
  return false;
}

void Timeline::append(const Event& event) {
  assert(events_.size() < std::numeric_limits<std::uint32_t>::max());
  if (is_moment(event)) moments_.push_back(static_cast<std::uint32_t>(events_.size()));
  events_.push_back(event);
}

void Timeline::replace(std::size_t first, std::size_t last, const std::vector<Event>& group) {
  assert(first <= last && last <= events_.size() && group.size() >= last - first);
  const auto grown = static_cast<std::uint32_t>(group.size() - (last - first));
  assert(events_.size() + grown < std::numeric_limits<std::uint32_t>::max());

  events_.replace(first, last, group);

  std::vector<std::uint32_t> fresh;
  for (std::size_t i = 0; i < group.size(); ++i) {
    if (is_moment(group[i])) fresh.push_back(static_cast<std::uint32_t>(first + i));
  }
  auto begin = std::lower_bound(moments_.begin(), moments_.end(), first);
  auto end = std::lower_bound(begin, moments_.end(), last);
  for (auto later = end; later != moments_.end(); ++later) *later += grown;
  begin = moments_.erase(begin, end);
  moments_.insert(begin, fresh.begin(), fresh.end());
}

}  // namespace benchwarden::tallies
