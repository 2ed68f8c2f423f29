#include "book/merkle.h"

#include <array>
#include <bit>
#include <cassert>
#include <utility>

namespace benchwarden::book {
namespace {

// The prefixes keep a leaf from passing for a node and a node for a leaf.
constexpr std::string_view kLeafPrefix("\x00", 1);
constexpr std::string_view kNodePrefix("\x01", 1);

}  // namespace

base::Sha256Digest hash_leaf(std::string_view leaf) {
  const std::array<std::string_view, 2> parts{kLeafPrefix, leaf};
  return base::sha256(parts);
}

base::Sha256Digest hash_node(const base::Sha256Digest& left, const base::Sha256Digest& right) {
  const std::array<std::string_view, 3> parts{kNodePrefix, base::as_bytes(left),
                                              base::as_bytes(right)};
  return base::sha256(parts);
}

std::vector<NodePlace> peaks_of(std::uint64_t size) {
  std::vector<NodePlace> places;
  std::uint64_t covered = 0;
  for (int level = 63; level >= 0; --level) {
    const std::uint64_t span = std::uint64_t{1} << level;
    if ((size & span) == 0) continue;
    places.push_back({level, covered >> level});
    covered += span;
  }
  assert(covered == size);
  return places;
}

TreeEdge TreeEdge::from_peaks(std::uint64_t size, std::vector<base::Sha256Digest> peaks) {
  assert(peaks.size() == static_cast<std::size_t>(std::popcount(size)));
  TreeEdge edge;
  edge.size_ = size;
  edge.peaks_ = std::move(peaks);
  return edge;
}

std::vector<Node> TreeEdge::append(const base::Sha256Digest& leaf_hash) {
  std::vector<Node> completed{{{0, size_}, leaf_hash}};
  base::Sha256Digest hash = leaf_hash;
  // Each set bit at the low end of the old size is a full subtree that now finds its sibling.
  for (int level = 0; ((size_ >> level) & 1U) != 0; ++level) {
    assert(!peaks_.empty());
    hash = hash_node(peaks_.back(), hash);
    peaks_.pop_back();
    completed.push_back({{level + 1, size_ >> (level + 1)}, hash});
  }
  peaks_.push_back(hash);
  ++size_;
  assert(peaks_.size() == static_cast<std::size_t>(std::popcount(size_)));
  return completed;
}

base::Sha256Digest TreeEdge::root() const {
  if (peaks_.empty()) return base::sha256(std::string_view());
  // Smaller subtrees join from the right: the split is at the largest power of two below the size.
  base::Sha256Digest hash = peaks_.back();
  for (std::size_t i = peaks_.size() - 1; i-- > 0;) hash = hash_node(peaks_[i], hash);
  return hash;
}

}  // namespace benchwarden::book
