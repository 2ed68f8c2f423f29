#include "book/tree_proofs.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <utility>

namespace benchwarden::book {
namespace {

/// Leaves, counted from 0, without the last. Where the tree is split, `begin` is a multiple of the
/// power of two that is not below the length.
struct Span {
  std::uint64_t begin = 0;
  std::uint64_t end = 0;
  [[nodiscard]] std::uint64_t size() const { return end - begin; }
};

/// What RFC 9162 splits more than one leaf into: the left part is the largest power of two that is
/// less than all.
std::pair<Span, Span> halves_of(Span span) {
  const std::uint64_t middle = span.begin + std::bit_floor(span.size() - 1);
  return {{span.begin, middle}, {middle, span.end}};
}

base::Result<base::Sha256Digest> root_of(const NodeAt& node_at, Span span) {
  ProofPath peaks;
  for (NodePlace place : peaks_of(span.size())) {
    place.index += span.begin >> place.level;
    auto hash = node_at(place);
    if (!hash.ok()) return hash.error();
    peaks.push_back(*hash);
  }
  return TreeEdge::from_peaks(span.size(), std::move(peaks)).root();
}

}  // namespace

base::Result<ProofPath> inclusion_path(const NodeAt& node_at, std::uint64_t seq,
                                       std::uint64_t size) {
  assert(seq >= 1 && seq <= size);
  const std::uint64_t leaf = seq - 1;
  ProofPath path;
  for (Span span{0, size}; span.size() > 1;) {
    auto [inside, beside] = halves_of(span);
    if (leaf >= inside.end) std::swap(inside, beside);
    auto hash = root_of(node_at, beside);
    if (!hash.ok()) return hash.error();
    path.push_back(*hash);
    span = inside;
  }
  std::reverse(path.begin(), path.end());
  return path;
}

base::Result<ProofPath> consistency_path(const NodeAt& node_at, std::uint64_t from,
                                         std::uint64_t to) {
  assert(from >= 1 && from <= to);
  ProofPath path;
  Span span{0, to};
  while (span.end != from) {
    auto [inside, beside] = halves_of(span);
    if (from > inside.end) std::swap(inside, beside);
    auto hash = root_of(node_at, beside);
    if (!hash.ok()) return hash.error();
    path.push_back(*hash);
    span = inside;
  }
  // Who checks has the root of the older tree already, where that is a subtree of the newer one.
  if (span.begin > 0) {
    auto hash = root_of(node_at, span);
    if (!hash.ok()) return hash.error();
    path.push_back(*hash);
  }
  std::reverse(path.begin(), path.end());
  return path;
}

}  // namespace benchwarden::book
