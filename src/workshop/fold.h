#pragma once

#include "base/result.h"
#include "book/book.h"
#include "entries/entry.h"
#include "forms/catalog.h"
#include "tallies/state.h"

namespace benchwarden::workshop {

/// Folds the entry that comes next into the state. For a correction the target and its earlier
/// corrections are read from the book. kDamaged when they are not there, when another entry comes
/// next, or when the entry is none that its form could have taken; kUnavailable when they cannot be
/// read now. The state is as it was after an error.
base::Status<> fold(tallies::State& state, const entries::Entry& entry,
                    const book::EntrySource& book, const forms::Catalog& catalog);

/// How the state is to be seen. The register acts in the order of the book, so `known_at` alone
/// says what of it is seen: what happened in a container may be dated before its being entered.
struct Viewpoint {
  std::uint64_t known_at = UINT64_MAX;  ///< what the book said at that size
  base::Instant as_of{INT64_MAX};       ///< what had happened by then, that moment included
};

/// The state folded from entry 1, seen from there.
base::Result<tallies::State> refold(const book::Book& book, const forms::Catalog& catalog,
                                    const Viewpoint& view);

}  // namespace benchwarden::workshop
