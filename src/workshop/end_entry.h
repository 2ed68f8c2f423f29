#pragma once

#include <optional>
#include <string>

#include "base/clock.h"
#include "book/accept_end.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// The entry that says that the end of the book was accepted on the machine itself.
book::Draft end_entry(const book::OddEnd& end, const forms::Catalog& catalog, base::Instant now);

/// What such an entry says, for the person who verifies; nothing of an entry of another kind.
std::optional<std::string> told_of_end(const entries::Entry& entry);

}  // namespace benchwarden::workshop
