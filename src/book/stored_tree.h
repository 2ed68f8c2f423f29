#pragma once

#include <cstdint>

#include "base/result.h"
#include "book/book.h"
#include "book/connection.h"
#include "book/merkle.h"
#include "book/tree_proofs.h"

namespace benchwarden::book {

/// The hash of a full subtree. kDamaged when it is missing.
base::Result<base::Sha256Digest> stored_node(Connection& connection, NodePlace place);

/// The same, as proofs ask for it, as long as the connection is held.
NodeAt stored_nodes(Connection& connection);

/// How many entries are stored: the greatest number.
base::Result<std::uint64_t> stored_size(Connection& connection);

/// The edge of the tree as it was at `size` entries, from the stored hashes; reads at most 64
/// rows. kDamaged when one is missing.
base::Result<TreeEdge> stored_edge(Connection& connection, std::uint64_t size);

/// The nodes an entry completes above its leaf hash, as its column `interior` holds them.
std::string interior_bytes(const std::vector<Node>& completed);

/// The newest entry carries the root of the whole; kDamaged when it is not that of the stored
/// hashes, or when its leaf is not that of its leaf hash.
base::Result<TreeEdge> checked_edge(Connection& connection);

/// kDamaged when the book ends before `last`, or said something else at that size.
base::Status<> check_continues(Connection& connection, const TreeHead& last);

}  // namespace benchwarden::book
