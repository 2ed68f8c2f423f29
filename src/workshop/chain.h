#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "book/book.h"
#include "entries/entry.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// An entry with what later entries made of it.
struct Chain {
  entries::Entry entry;
  std::vector<entries::Entry> corrections;  ///< in book order
  entries::Content effective;               ///< the content with all corrections merged in
  bool struck = false;
};

/// The chain as the book stood before entry `before_seq` (that entry itself excluded).
base::Result<Chain> chain_of(const book::Book& book, const forms::Catalog& catalog,
                             entries::Entry entry, std::uint64_t before_seq = UINT64_MAX);

}  // namespace benchwarden::workshop
