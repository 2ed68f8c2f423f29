#pragma once

#include <cstddef>

#include "document/document.h"

namespace benchwarden::document {

/// True for a paragraph that stands between a heading and what it introduces: a table, a box, a
/// signature. No page break should part the three. `block` is its place in the section.
bool leads_in(const Section& section, std::size_t block);

}  // namespace benchwarden::document
