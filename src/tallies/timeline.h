#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/timestamp.h"
#include "tallies/shared_list.h"

namespace benchwarden::tallies {

/// What happened to one container, in order of time (then of the book). Amounts are in the
/// smallest unit of what the container's stream is counted by: microlitres or milligrams.
enum class EventKind : std::uint8_t {
  kAdded,
  kMovedIn,
  kMovedOut,
  kTaken,
  kRead,     ///< amount is the reading; it never changes the log
  kEmptied,  ///< recorded as empty: the storage clock and the log start anew
  kPlaced,
  kSealed,
};

/// No single amount of an entry is larger: 10^12 µL or mg, a million litres or a thousand tonnes.
/// Larger ones are cut to it, so that no sum of millions of events can overflow.
inline constexpr std::int64_t kAmountMax = 1'000'000'000'000;

struct Event {
  base::Instant at;
  std::int64_t amount = 0;  ///< as corrected; 0 when struck out. kEmptied: what was on the log
  /// As first recorded; 0 for what a correction brought here. Of a `whole` event it follows the
  /// amount until a correction touches the entry, and stays as it was then. kEmptied: the amount,
  /// always, since what an emptying clears follows from the log as it stands.
  std::int64_t original = 0;
  std::int64_t level = 0;  ///< the log right after this event
  std::uint32_t seq = 0;
  std::uint16_t part = 0;  ///< place within the entry; both ends of a move have the same
  EventKind kind = EventKind::kAdded;
  bool arises : 1 = false;     ///< waste counts from here (it entered its labelled container)
  bool acts : 1 = true;        ///< false once struck out or corrected away
  bool whole : 1 = false;      ///< the amount is all that was in it: derived, never stated
  bool corrected : 1 = false;  ///< a correction touched or brought it
  friend bool operator==(const Event&, const Event&) = default;
};
/// Whether an amount came in by it.
bool comes_in(const Event& event);
static_assert(sizeof(Event) <= 40, "a book may hold a million of them");

/// Opening + added + moved_in - moved_out - taken - emptied + corrections = closing, exactly, for
/// any interval. The four middle terms are as first recorded; `corrections` is what corrections
/// changed of them, in sum, signed by their effect on the level.
struct Movement {
  std::int64_t opening = 0;
  std::int64_t added = 0;
  std::int64_t moved_in = 0;
  std::int64_t moved_out = 0;
  std::int64_t taken = 0;
  /// What was still on the log when the container was recorded as empty, corrections included.
  /// Subtracted; negative when more had been taken than was ever logged.
  std::int64_t emptied = 0;
  std::int64_t corrections = 0;
  std::int64_t closing = 0;
  friend bool operator==(const Movement&, const Movement&) = default;
};

/// The unexplained difference is `reading - logged`.
struct Reading {
  base::Instant at;
  std::uint64_t seq = 0;
  std::int64_t reading = 0;
  std::int64_t logged = 0;  ///< the log at that moment, since it was last emptied
  friend bool operator==(const Reading&, const Reading&) = default;
};

/// The events [first, last) between two records that nothing was left: what came in by them stood
/// together. The emptying that ended it stands at `last`, unless it goes on.
struct Standing {
  std::size_t first = 0;
  std::size_t last = 0;
};

using Events = SharedList<Event>;

/// The events of one container in order of (at, seq, part), each with the level after it. Only
/// Flow alters it, since a move of all content ties two timelines together.
/// Costs: level() and in-order insertion O(1); level_at O(log n); intervals O(log n + what is in
/// them); a late entry O(n).
class Timeline {
 public:
  [[nodiscard]] std::int64_t level_at(base::Instant until) const;  ///< events with at < until
  [[nodiscard]] std::int64_t level() const;                        ///< all events
  [[nodiscard]] Movement movement(base::Instant from, base::Instant until) const;
  /// Amount that arose here in [from, until), corrections included.
  [[nodiscard]] std::int64_t arisen(base::Instant from, base::Instant until) const;
  /// The standing around the event at `index`, or at the end of the events for their number.
  [[nodiscard]] Standing standing_around(std::size_t index) const;
  /// How many events there are with at < until.
  [[nodiscard]] std::size_t count_before(base::Instant until) const { return index_at(until); }
  /// When the oldest content came into this container, however old it was then
  /// (tallies/content_age.h): the first amount after it was last recorded as empty. None
  /// when nothing came in since. A log that reaches 0 by taking a stated amount is not a record
  /// that nothing is left, so it does not restart the clock.
  [[nodiscard]] std::optional<base::Instant> oldest_content(base::Instant until) const;
  /// Whether, by then, something went in without an amount since it was last recorded as empty.
  [[nodiscard]] bool holds_unmeasured(base::Instant until) const;
  /// The last reading in [from, until) that stands.
  [[nodiscard]] std::optional<Reading> last_reading(base::Instant from, base::Instant until) const;
  /// Sealed, and since then neither placed nor emptied.
  [[nodiscard]] bool sealed(base::Instant until) const;
  [[nodiscard]] const Events& events() const { return events_; }

 private:
  friend class Flow;

  [[nodiscard]] std::size_t index_at(base::Instant until) const;
  [[nodiscard]] std::int64_t level_before(std::size_t index) const;
  /// Puts `group` in the place of the events [first, last).
  void replace(std::size_t first, std::size_t last, const std::vector<Event>& group);
  void append(const Event& event);

  Events events_;  ///< sorted by (at, seq, part)
  std::vector<std::uint32_t>
      moments_;  ///< indices of the events that are no measured flow, ascending
};

}  // namespace benchwarden::tallies
