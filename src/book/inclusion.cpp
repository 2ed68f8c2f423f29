#include "book/inclusion.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <utility>

#include "book/merkle.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

/// Leaves, counted from 0, without the last. Where the tree is split, `begin` is a multiple of the
/// power of two that is not below the length.
struct Span {
  std::uint64_t begin = 0;
  std::uint64_t end = 0;
};

base::Result<base::Sha256Digest> root_of(Connection& connection, Span span) {
  const std::uint64_t size = span.end - span.begin;
  std::vector<base::Sha256Digest> peaks;
  for (NodePlace place : peaks_of(size)) {
    place.index += span.begin >> place.level;
    auto hash = stored_node(connection, place);
    if (!hash.ok()) return hash.error();
    peaks.push_back(*hash);
  }
  return TreeEdge::from_peaks(size, std::move(peaks)).root();
}

}  // namespace

base::Result<std::vector<base::Sha256Digest>> inclusion_path(Connection& connection,
                                                             std::uint64_t seq,
                                                             std::uint64_t size) {
  assert(seq >= 1 && seq <= size);
  const std::uint64_t leaf = seq - 1;
  std::vector<base::Sha256Digest> path;
  for (Span span{0, size}; span.end - span.begin > 1;) {
    const std::uint64_t middle = span.begin + std::bit_floor(span.end - span.begin - 1);
    const Span left{span.begin, middle};
    const Span right{middle, span.end};
    auto hash = root_of(connection, leaf < middle ? right : left);
    if (!hash.ok()) return hash.error();
    path.push_back(*hash);
    span = leaf < middle ? left : right;
  }
  std::reverse(path.begin(), path.end());
  return path;
}

}  // namespace benchwarden::book
