#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "base/sha256.h"

namespace benchwarden::book {

/// RFC 9162 section 2.1: SHA-256(0x00 || leaf), SHA-256(0x01 || left || right).
base::Sha256Digest hash_leaf(std::string_view leaf);
base::Sha256Digest hash_node(const base::Sha256Digest& left, const base::Sha256Digest& right);

/// Where a node of the tree that is full stands; it will never change. It covers the leaves
/// [index * 2^level, (index + 1) * 2^level), counted from 0.
struct NodePlace {
  int level = 0;
  std::uint64_t index = 0;
  friend bool operator==(const NodePlace&, const NodePlace&) = default;
};
struct Node {
  NodePlace place;
  base::Sha256Digest hash{};
};

/// The full subtrees a tree of `size` leaves consists of, largest first: one for each bit of the
/// size. At most 64.
std::vector<NodePlace> peaks_of(std::uint64_t size);

/// The growing right edge of the tree: the hashes of those full subtrees.
class TreeEdge {
 public:
  /// Rebuilds the edge of a tree of `size` leaves. One hash for each of peaks_of(size); asserted.
  static TreeEdge from_peaks(std::uint64_t size, std::vector<base::Sha256Digest> peaks);

  [[nodiscard]] std::uint64_t size() const { return size_; }
  /// Takes the next leaf hash and returns every node it completes, the leaf itself first.
  std::vector<Node> append(const base::Sha256Digest& leaf_hash);
  /// Of the empty tree: SHA-256 of nothing.
  [[nodiscard]] base::Sha256Digest root() const;

 private:
  std::uint64_t size_ = 0;
  std::vector<base::Sha256Digest> peaks_;
};

}  // namespace benchwarden::book
