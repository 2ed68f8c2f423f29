#pragma once

#include "book/tree_proofs.h"

namespace benchwarden::book {

struct TreeHead;

/// RFC 9162 section 2.1.3.2: whether `path` leads from the leaf hash of entry `seq` (counted from
/// 1) to the root of a tree of that size.
bool proves_inclusion(std::uint64_t seq, const base::Sha256Digest& leaf_hash, const TreeHead& head,
                      const ProofPath& path);

/// RFC 9162 section 2.1.4.2: whether `path` leads to both roots, so that the tree of `to` begins
/// with all leaves of the tree of `from`. Of two trees of one size it is empty.
bool proves_consistency(const TreeHead& from, const TreeHead& to, const ProofPath& path);

}  // namespace benchwarden::book
