#pragma once

#include <compare>
#include <cstdint>
#include <functional>
#include <map>
#include <queue>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/timestamp.h"
#include "tallies/rows.h"
#include "tallies/timeline.h"

namespace benchwarden::tallies {

class ByteReader;
class ByteWriter;

/// All timelines, and the moves of all content that tie them together: what such a move carries
/// depends on the past of the container it leaves, so when that past changes, the other end
/// changes with it, and whatever follows from there.
///
/// Changes spread forwards in time only (a move arrives when it leaves), so they are worked off in
/// order of time over all timelines at once, and each event is settled about once however the
/// moves are entangled.
class Flow {
 public:
  using Timelines = std::map<std::string, Timeline, std::less<>>;

  void post(const std::vector<Row>& rows);
  /// The entry (at, seq) did `before` and does `after`. A container for which they say the same
  /// keeps what it has. Elsewhere rows of one kind in one container are paired in order. An event
  /// that lost its row stays, with amount 0; a row that found none brings an event with original 0.
  void amend(base::Instant at, std::uint64_t seq, const std::vector<Row>& before,
             const std::vector<Row>& after);

  [[nodiscard]] const Timeline& timeline(std::string_view container) const;
  [[nodiscard]] const Timelines& timelines() const { return timelines_; }

  void write(ByteWriter& writer) const;
  static Flow read(ByteReader& reader);

 private:
  struct Key {
    base::Instant at;
    std::uint64_t seq = 0;
    std::uint16_t part = 0;
    friend auto operator<=>(const Key&, const Key&) = default;
  };
  /// Both ends of a whole move.
  struct Link {
    std::string from;
    std::string to;
    Exchange exchange;
  };
  /// Where a timeline is to be settled from.
  struct Unsettled {
    Key key;
    Timeline* timeline = nullptr;
    friend bool operator>(const Unsettled& a, const Unsettled& b) { return a.key > b.key; }
  };
  using Queue = std::priority_queue<Unsettled, std::vector<Unsettled>, std::greater<>>;

  static Key key_of(const Event& event) { return {event.at, event.seq, event.part}; }
  static std::size_t index_of(const Timeline& timeline, const Key& key);
  static std::vector<Event> amended_group(std::vector<Event> group, const std::vector<Row>& rows);

  Timeline& timeline_for(std::string_view container);
  void link(const Row& row);
  void relink(const Key& entry, const std::vector<Row>& rows);
  void place(const Row& row, Queue& queue);
  void amend_container(const Key& entry, std::string_view container, const std::vector<Row>& rows,
                       Queue& queue);
  void settle(Queue& queue);
  void settle_from(const Unsettled& start, Queue& queue);
  void derive(Event& event, std::int64_t level, Queue& queue);
  void carry_over(const Event& out, Queue& queue);
  [[nodiscard]] Event* far_end(const Key& key, const Link& link);

  static Timeline read_timeline(ByteReader& reader);
  void read_links(ByteReader& reader);
  /// What is derived in a snapshot must be what would be derived.
  [[nodiscard]] bool is_settled();

  Timelines timelines_;
  std::map<Key, Link> links_;  ///< of the whole moves that stand
};

}  // namespace benchwarden::tallies
