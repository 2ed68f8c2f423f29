#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "entries/effect.h"
#include "quantities/quantity.h"
#include "tallies/facts.h"
#include "tallies/timeline.h"

namespace benchwarden::tallies {

/// How an amount counted in one container counts in another. Nothing to do where both are counted
/// by the same; else by the density, and without one it counts 0.
struct Exchange {
  CountedBy from = CountedBy::kVolume;
  CountedBy to = CountedBy::kVolume;
  std::optional<quantities::GramsPerCubicMetre> density;
  friend bool operator==(const Exchange&, const Exchange&) = default;
};

/// `amount` after the exchange, rounded to the smallest unit, ties away from zero; cut to
/// kAmountMax.
std::int64_t exchanged(std::int64_t amount, const Exchange& exchange);

/// One event for the timeline of one container. Views into the effects and lives no longer.
struct Row {
  std::string_view container;
  Event event;
  std::string_view other_end;  ///< of a move: the other container
  Exchange exchange;           ///< of a whole kMovedOut: how it counts there
  friend bool operator==(const Row&, const Row&) = default;
};

/// What the effects of one entry do to timelines. The register is asked as it stands now: what a
/// stream is counted by, its density, and which containers count waste. (A container's stream and
/// counts_waste and a stream's counted_by are fixed once entered, so only the density can differ
/// between an entry and its correction.)
///
/// - An amount is taken in what the stream is counted by; where the entry gives only the other, it
///   is converted by the stream's density (rounded to the smallest unit, ties away from zero).
///   Without a density it counts 0: forms see to it that this does not happen.
/// - A move is converted at both ends by the density of what is moved, that is of the stream it
///   comes from, else of the one it goes to.
/// - A move without an amount, and a load recorded as emptied without one, take all that was in it.
/// - A move from a container into itself does nothing. A move from a labelled container back into
///   a working bin does not undo that it arose.
std::vector<Row> rows_of(const entries::Effects& effects, base::Instant at, std::uint64_t seq,
                         const Register& under_care);

}  // namespace benchwarden::tallies
