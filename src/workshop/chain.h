#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"
#include "book/entry_source.h"
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

/// The chain as the book stood before entry `before_seq` (that entry itself excluded). kDamaged
/// when `entry` is not among those before it.
base::Result<Chain> chain_of(const book::EntrySource& book, const forms::Catalog& catalog,
                             entries::Entry entry, std::uint64_t before_seq = UINT64_MAX);

/// The things an entry with this content is about, sorted, each once, told from what stood in the
/// book before entry `before_seq`. A correction is about what its target was as recorded, what it
/// was until then, and what it becomes.
base::Result<std::vector<std::string>> subjects_of(const book::EntrySource& book,
                                                   const forms::Catalog& catalog,
                                                   const entries::Content& content,
                                                   std::uint64_t before_seq = UINT64_MAX);

}  // namespace benchwarden::workshop
