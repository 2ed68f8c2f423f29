#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "base/result.h"
#include "base/sha256.h"
#include "book/merkle.h"

namespace benchwarden::book {

/// Where the hash of a full subtree is had from; its errors end what asks for it.
using NodeAt = std::function<base::Result<base::Sha256Digest>(NodePlace)>;
using ProofPath = std::vector<base::Sha256Digest>;

/// RFC 9162 section 2.1.3.1: the hashes that make, with the leaf hash of entry `seq` (counted from
/// 1), the root of the tree over the first `size` entries; that of the leaf's neighbour first.
/// Asks for O(log² size) hashes. 1 <= seq <= size is asserted.
base::Result<ProofPath> inclusion_path(const NodeAt& node_at, std::uint64_t seq,
                                       std::uint64_t size);

/// RFC 9162 section 2.1.4.1: the hashes that make both the root over the first `from` entries and
/// that over the first `to`. Asks for O(log² to) hashes. 1 <= from <= to is asserted.
base::Result<ProofPath> consistency_path(const NodeAt& node_at, std::uint64_t from,
                                         std::uint64_t to);

}  // namespace benchwarden::book
