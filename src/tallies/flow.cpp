#include "tallies/flow.h"

#include <algorithm>
#include <cassert>
#include <limits>

#include "tallies/settling.h"

namespace benchwarden::tallies {
namespace {

/// No level is ever this, so an event that bears it is never taken for settled.
constexpr std::int64_t kNotSettled = std::numeric_limits<std::int64_t>::min();

void set_whole(Event& event, std::int64_t amount) {
  event.amount = amount;
  if (!event.corrected) event.original = amount;
}

}  // namespace

std::size_t Flow::index_of(const Timeline& timeline, const Key& key) {
  const auto& events = timeline.events_;
  if (events.empty() || key_of(events.back()) < key) return events.size();
  const auto place = std::partition_point(events.begin(), events.end(),
                                          [&](const Event& event) { return key_of(event) < key; });
  return static_cast<std::size_t>(place - events.begin());
}

const Timeline& Flow::timeline(std::string_view container) const {
  static const Timeline kNone;
  const auto found = timelines_.find(container);
  return found == timelines_.end() ? kNone : found->second;
}

Timeline& Flow::timeline_for(std::string_view container) {
  const auto found = timelines_.find(container);
  if (found != timelines_.end()) return found->second;
  return timelines_[std::string(container)];
}

void Flow::link(const Row& row) {
  if (row.event.kind != EventKind::kMovedOut || !row.event.whole) return;
  links_.insert_or_assign(key_of(row.event), Link{std::string(row.container),
                                                  std::string(row.other_end), row.exchange});
}

void Flow::place(const Row& row, Queue& queue) {
  Timeline& timeline = timeline_for(row.container);
  link(row);
  Event event = row.event;
  event.level = kNotSettled;
  const Key key = key_of(event);
  const std::size_t index = index_of(timeline, key);
  const bool last = index == timeline.events_.size();
  const std::int64_t before = timeline.level_before(index);
  if (last && !event.whole && before != kNotSettled) {
    // The usual case: what happened last is entered last, and nothing else changes.
    if (event.kind == EventKind::kEmptied) event.amount = event.original = before;
    event.level = level_after(event, before);
    timeline.append(event);
    return;
  }
  if (last) {
    timeline.append(event);
  } else {
    timeline.replace(index, index, {event});
  }
  queue.push({key, &timeline});
}

void Flow::post(const std::vector<Row>& rows) {
  Queue queue;
  for (const Row& row : rows) place(row, queue);
  settle(queue);
}

std::vector<Event> Flow::amended_group(std::vector<Event> group, const std::vector<Row>& rows) {
  const std::size_t known = group.size();
  std::vector<bool> paired(known, false);
  for (const Row& row : rows) {
    std::size_t i = 0;
    while (i < known && (paired[i] || group[i].kind != row.event.kind)) ++i;
    Event event = row.event;
    event.original = i < known ? group[i].original : 0;
    if (i < known) {
      paired[i] = true;
      group[i] = event;
    } else {
      group.push_back(event);
    }
  }
  for (std::size_t i = 0; i < known; ++i) {
    if (paired[i]) continue;
    Event& lost = group[i];
    lost.amount = 0;
    lost.acts = false;
    lost.whole = false;
    if (lost.kind == EventKind::kEmptied) lost.original = 0;
  }
  for (Event& event : group) {
    event.corrected = true;
    event.level = kNotSettled;
  }
  std::stable_sort(group.begin(), group.end(),
                   [](const Event& a, const Event& b) { return a.part < b.part; });
  return group;
}

void Flow::amend_container(const Key& entry, std::string_view container,
                           const std::vector<Row>& here, Queue& queue) {
  Timeline& timeline = timeline_for(container);
  const auto& events = timeline.events_;
  const std::size_t first = index_of(timeline, entry);
  std::size_t last = first;
  while (last < events.size() && events[last].at == entry.at && events[last].seq == entry.seq) {
    ++last;
  }
  const auto begin = events.begin();
  const auto group = amended_group(
      {begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(last)},
      here);
  if (group.empty()) return;
  timeline.replace(first, last, group);
  queue.push({entry, &timeline});
}

void Flow::relink(const Key& entry, const std::vector<Row>& rows) {
  std::map<Key, Link> old;
  auto at = links_.lower_bound(entry);
  while (at != links_.end() && at->first.at == entry.at && at->first.seq == entry.seq) {
    old.insert(links_.extract(at++));
  }
  for (const Row& row : rows) {
    link(row);
    // A move that stays as it was keeps the density it was recorded with.
    const auto same = old.find(key_of(row.event));
    const auto now = links_.find(key_of(row.event));
    if (same == old.end() || now == links_.end()) continue;
    const bool stays = same->second.from == now->second.from && same->second.to == now->second.to;
    if (stays) now->second.exchange = same->second.exchange;
  }
}

void Flow::amend(base::Instant at, std::uint64_t seq, const std::vector<Row>& before,
                 const std::vector<Row>& after) {
  const Key entry{at, seq, 0};
  relink(entry, after);
  std::map<std::string_view, std::pair<std::vector<Row>, std::vector<Row>>> by_container;
  for (const Row& row : before) by_container[row.container].first.push_back(row);
  for (const Row& row : after) by_container[row.container].second.push_back(row);
  Queue queue;
  for (const auto& [container, rows] : by_container) {
    if (rows.first != rows.second) amend_container(entry, container, rows.second, queue);
  }
  settle(queue);
}

Event* Flow::far_end(const Key& key, const Link& link) {
  const auto found = timelines_.find(link.to);
  if (found == timelines_.end()) return nullptr;
  Events& events = found->second.events_;
  for (std::size_t i = index_of(found->second, key); i < events.size(); ++i) {
    const Event& event = events[i];
    if (key_of(event) != key) break;
    if (event.kind == EventKind::kMovedIn && event.whole && event.acts) return &events.at(i);
  }
  return nullptr;
}

void Flow::carry_over(const Event& out, Queue& queue) {
  const auto link = links_.find(key_of(out));
  assert(link != links_.end());
  Event* in = far_end(link->first, link->second);
  assert(in != nullptr);
  const std::int64_t amount = exchanged(out.amount, link->second.exchange);
  if (in->amount == amount && (in->corrected || in->original == amount)) return;
  set_whole(*in, amount);
  in->level = kNotSettled;
  queue.push({link->first, &timelines_.find(link->second.to)->second});
}

void Flow::derive(Event& event, std::int64_t level, Queue& queue) {
  if (takes_whole(event)) {
    set_whole(event, whole_of(level));
    if (event.kind == EventKind::kMovedOut) carry_over(event, queue);
  } else if (event.kind == EventKind::kEmptied && event.acts) {
    event.amount = event.original = level;
  }
}

void Flow::settle_from(const Unsettled& start, Queue& queue) {
  Events& events = start.timeline->events_;
  std::size_t i = index_of(*start.timeline, start.key);
  std::int64_t level = start.timeline->level_before(i);
  assert(level != kNotSettled);
  const std::size_t first = i;
  for (; i < events.size(); ++i) {
    Event& event = events.at(i);
    if (i > first && !queue.empty() && queue.top().key < key_of(event)) {
      // Something earlier elsewhere may still reach this event: let it go first.
      queue.push({key_of(event), start.timeline});
      return;
    }
    const std::int64_t settled = event.level;
    derive(event, level, queue);
    level = event.level = level_after(event, level);
    // From here on nothing is different from what it was. (What else is unsettled in this
    // timeline has its own place in the queue. An event that lapsed may share the first key.)
    if (level == settled && key_of(event) != start.key) return;
  }
}

void Flow::settle(Queue& queue) {
  while (!queue.empty()) {
    const Unsettled start = queue.top();
    queue.pop();
    settle_from(start, queue);
  }
}

}  // namespace benchwarden::tallies
