#include <cassert>
#include <limits>
#include <utility>

#include "tallies/bytes.h"
#include "tallies/flow.h"
#include "tallies/settling.h"

// The timelines in a snapshot. What is derived (levels, what an emptying cleared) is not written
// but derived again; what is written of derived amounts must be what would be derived.

namespace benchwarden::tallies {
namespace {

constexpr std::uint64_t kKindMask = 7;
constexpr std::uint64_t kArises = 8;
constexpr std::uint64_t kActs = 16;
constexpr std::uint64_t kWhole = 32;
constexpr std::uint64_t kCorrected = 64;
constexpr std::uint64_t kCodeMax = 127;
constexpr std::int64_t kLevelMax = std::int64_t{1} << 62;

std::uint64_t code_of(const Event& event) {
  return static_cast<std::uint64_t>(event.kind) | (event.arises ? kArises : 0) |
         (event.acts ? kActs : 0) | (event.whole ? kWhole : 0) | (event.corrected ? kCorrected : 0);
}

std::uint64_t difference(std::uint64_t a, std::uint64_t b) { return a - b; }

/// Times and numbers as the difference from the event before, wrapping, so that any value fits.
void write_event(ByteWriter& writer, const Event& event, const Event& previous) {
  writer.signed_number(static_cast<std::int64_t>(difference(
      static_cast<std::uint64_t>(event.at.ms), static_cast<std::uint64_t>(previous.at.ms))));
  writer.signed_number(static_cast<std::int64_t>(difference(event.seq, previous.seq)));
  writer.number(event.part);
  writer.number(code_of(event));
  if (event.kind == EventKind::kEmptied) return;
  writer.signed_number(event.amount);
  if (event.corrected) writer.signed_number(event.original);
}

Event read_event(ByteReader& reader, const Event& previous) {
  Event event;
  event.at.ms = static_cast<std::int64_t>(static_cast<std::uint64_t>(previous.at.ms) +
                                          static_cast<std::uint64_t>(reader.signed_number()));
  const std::uint64_t seq = previous.seq + static_cast<std::uint64_t>(reader.signed_number());
  if (seq > std::numeric_limits<std::uint32_t>::max()) reader.fail();
  event.seq = static_cast<std::uint32_t>(seq);
  event.part = static_cast<std::uint16_t>(reader.number_up_to(0xffff));
  const std::uint64_t code = reader.number_up_to(kCodeMax);
  event.kind = static_cast<EventKind>(code & kKindMask);
  event.arises = (code & kArises) != 0;
  event.acts = (code & kActs) != 0;
  event.whole = (code & kWhole) != 0;
  event.corrected = (code & kCorrected) != 0;
  if (event.kind != EventKind::kEmptied) {
    event.amount = reader.signed_number_within(kAmountMax);
    event.original = event.corrected ? reader.signed_number_within(kAmountMax) : event.amount;
  }
  const bool lapsed_fits = event.acts || (event.corrected && event.amount == 0 && !event.whole);
  if (!lapsed_fits) reader.fail();
  return event;
}

void write_exchange(ByteWriter& writer, const Exchange& exchange) {
  writer.number(static_cast<std::uint64_t>(exchange.from));
  writer.number(static_cast<std::uint64_t>(exchange.to));
  writer.signed_number(exchange.density ? exchange.density->count() : 0);
}

Exchange read_exchange(ByteReader& reader) {
  Exchange exchange;
  exchange.from = static_cast<CountedBy>(reader.number_up_to(1));
  exchange.to = static_cast<CountedBy>(reader.number_up_to(1));
  const std::int64_t density = reader.signed_number_within(kDensityMax);
  if (density < 0) reader.fail();
  if (density > 0) exchange.density = quantities::GramsPerCubicMetre(density);
  return exchange;
}

}  // namespace

void Flow::write(ByteWriter& writer) const {
  writer.number(timelines_.size());
  for (const auto& [container, timeline] : timelines_) {
    writer.text(container);
    writer.number(timeline.events_.size());
    Event previous;
    for (const Event& event : timeline.events_) {
      write_event(writer, event, previous);
      previous = event;
    }
  }
  writer.number(links_.size());
  for (const auto& [key, link] : links_) {
    writer.signed_number(key.at.ms);
    writer.number(key.seq);
    writer.number(key.part);
    writer.text(link.from);
    writer.text(link.to);
    write_exchange(writer, link.exchange);
  }
}

Timeline Flow::read_timeline(ByteReader& reader) {
  Timeline timeline;
  Event previous;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    Event event = read_event(reader, previous);
    if (i > 0 && key_of(event) < key_of(previous)) reader.fail();
    const std::int64_t before = previous.level;
    if (event.kind == EventKind::kEmptied && event.acts) event.amount = event.original = before;
    event.level = level_after(event, before);
    if (event.level > kLevelMax || event.level < -kLevelMax) reader.fail();
    if (takes_whole(event) && event.amount != whole_of(before)) reader.fail();
    timeline.append(event);
    previous = event;
  }
  return timeline;
}

void Flow::read_links(ByteReader& reader) {
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    Key key;
    key.at.ms = reader.signed_number();
    key.seq = reader.number();
    key.part = static_cast<std::uint16_t>(reader.number_up_to(0xffff));
    std::string from = reader.text();
    std::string to = reader.text();
    const Exchange exchange = read_exchange(reader);
    if (!links_.empty() && key <= links_.rbegin()->first) reader.fail();
    links_.insert_or_assign(key, Link{std::move(from), std::move(to), exchange});
  }
}

bool Flow::is_settled() {
  std::size_t leaving = 0;
  std::size_t arriving = 0;
  for (const auto& [container, timeline] : timelines_) {
    for (const Event& event : timeline.events_) {
      if (!event.whole) continue;
      if (event.kind == EventKind::kMovedIn) ++arriving;
      if (event.kind != EventKind::kMovedOut) continue;
      ++leaving;
      const auto link = links_.find(key_of(event));
      if (link == links_.end() || link->second.from != container) return false;
      if (link->second.to == container) return false;
      const Event* in = far_end(link->first, link->second);
      if (in == nullptr || in->amount != exchanged(event.amount, link->second.exchange)) {
        return false;
      }
    }
  }
  return leaving == links_.size() && arriving == links_.size();
}

Flow Flow::read(ByteReader& reader) {
  Flow flow;
  const std::size_t count = reader.count();
  for (std::size_t i = 0; i < count && !reader.failed(); ++i) {
    std::string container = reader.text();
    if (!flow.timelines_.empty() && container <= flow.timelines_.rbegin()->first) reader.fail();
    flow.timelines_.insert_or_assign(std::move(container), read_timeline(reader));
  }
  flow.read_links(reader);
  if (!reader.failed() && !flow.is_settled()) reader.fail();
  return flow;
}

}  // namespace benchwarden::tallies
