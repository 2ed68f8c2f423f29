#pragma once

#include <cstdint>
#include <set>

#include "document/document.h"

namespace benchwarden::document {

/// The numbers of the entries that a row of a table of the document is about.
std::set<std::uint64_t> entries_told(const Document& document);

}  // namespace benchwarden::document
