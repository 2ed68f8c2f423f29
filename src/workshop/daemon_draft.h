#pragma once

#include <string_view>

#include "base/timestamp.h"
#include "book/book.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// An entry that the program records of its own, now, signed by the machine; its fields are still
/// to be filled in, sorted by name.
book::Draft daemon_draft(std::string_view kind, const forms::Catalog& catalog, base::Instant now);

}  // namespace benchwarden::workshop
