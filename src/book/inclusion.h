#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "base/sha256.h"
#include "book/connection.h"

namespace benchwarden::book {

/// RFC 9162 section 2.1.3.1: the hashes that make, with the leaf hash of entry `seq` (counted from
/// 1), the root of the tree over the first `size` entries; that of the leaf's neighbour first.
/// From the stored hashes, in O(log² size) reads. 1 <= seq <= size is asserted; kDamaged when a
/// hash is missing.
base::Result<std::vector<base::Sha256Digest>> inclusion_path(Connection& connection,
                                                             std::uint64_t seq, std::uint64_t size);

}  // namespace benchwarden::book
