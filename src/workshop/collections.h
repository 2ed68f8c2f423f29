#pragma once

#include <optional>

#include "base/civil_date.h"
#include "base/json.h"
#include "base/result.h"
#include "tallies/collections.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// Every collection, the latest day first: {"today", "book_size", "collections": [{"collection",
/// "stage", "day", "planned_for", "carrier", "documents", "loads", "left_behind", "entries",
/// "findings"}]}. A load has what was
/// stated, what was logged as handed over and what the receiver weighed, in kg,
/// with their difference (weighed - logged), each null where it is not known. kUnavailable: the
/// disk fails.
base::Result<base::Json> show_collections(const Ports& ports);

/// What the last plan of a collection says in a book of `size`.
struct PlannedFor {
  base::CivilDate day;
  std::uint64_t entry = 0;
  base::Instant told_at;  ///< when it, or its newest correction, was recorded
};
/// None where it was not planned. The tallies do not hold the day, so it is read from the entry.
base::Result<std::optional<PlannedFor>> planned_for(const Ports& ports,
                                                    const tallies::CollectionStages& stages,
                                                    std::uint64_t size);

}  // namespace benchwarden::workshop
