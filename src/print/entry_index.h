#pragma once

#include <vector>

#include "document/blocks.h"
#include "print/typesetter.h"

namespace benchwarden::print {

/// Appends pages of that height with the index: every entry the pages are about, with the numbers
/// of those pages, in columns. Adds to the pages the anchors that the index leads to.
void add_entry_index(std::vector<Page>& pages, const document::EntryIndex& index,
                     const Typesetter& type, Mpt height);

}  // namespace benchwarden::print
