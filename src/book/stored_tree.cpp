#include "book/stored_tree.h"

#include <cassert>
#include <string>

#include "book/queries.h"

namespace benchwarden::book {
namespace {

constexpr std::size_t kHashBytes = 32;

base::Error damaged(const std::string& what) { return {base::ErrorCode::kDamaged, what}; }

}  // namespace

base::Result<base::Sha256Digest> stored_node(Connection& connection, NodePlace place) {
  assert(place.level >= 0 && place.level < 64);
  // A node is complete with its last leaf, and is kept in that entry's row.
  const std::uint64_t seq = (place.index + 1) << place.level;
  auto query = connection.statement("SELECT leaf_hash, interior FROM entry WHERE seq = ?");
  if (!query.ok()) return query.error();
  auto row = (*query)->bind(1, static_cast<std::int64_t>(seq)).step();
  if (!row.ok()) return row.error();
  if (!*row) return damaged("entry " + std::to_string(seq) + " is missing");
  if (place.level == 0) return digest_of_blob((*query)->blob(0));
  const std::string interior = (*query)->blob(1);
  const std::size_t offset = static_cast<std::size_t>(place.level - 1) * kHashBytes;
  if (interior.size() < offset + kHashBytes) {
    return damaged("entry " + std::to_string(seq) + " lacks a hash of the tree");
  }
  return digest_of_blob(std::string_view(interior).substr(offset, kHashBytes));
}

NodeAt stored_nodes(Connection& connection) {
  return [&connection](NodePlace place) { return stored_node(connection, place); };
}

base::Result<std::uint64_t> stored_size(Connection& connection) {
  auto query = connection.statement("SELECT coalesce(max(seq), 0) FROM entry");
  if (!query.ok()) return query.error();
  auto row = (*query)->step();
  if (!row.ok()) return row.error();
  return static_cast<std::uint64_t>((*query)->integer(0));
}

base::Result<TreeEdge> stored_edge(Connection& connection, std::uint64_t size) {
  std::vector<base::Sha256Digest> peaks;
  for (const NodePlace place : peaks_of(size)) {
    auto hash = stored_node(connection, place);
    if (!hash.ok()) return hash.error();
    peaks.push_back(*hash);
  }
  return TreeEdge::from_peaks(size, std::move(peaks));
}

std::string interior_bytes(const std::vector<Node>& completed) {
  std::string bytes;
  for (std::size_t i = 1; i < completed.size(); ++i) bytes += base::as_bytes(completed[i].hash);
  return bytes;
}

base::Result<TreeEdge> checked_edge(Connection& connection) {
  auto size = stored_size(connection);
  if (!size.ok()) return size.error();
  auto edge = stored_edge(connection, *size);
  if (!edge.ok() || *size == 0) return edge;
  auto query = connection.statement("SELECT root, leaf_hash, leaf FROM entry WHERE seq = ?");
  if (!query.ok()) return query.error();
  auto row = (*query)->bind(1, static_cast<std::int64_t>(*size)).step();
  if (!row.ok()) return row.error();
  const std::string entry = "entry " + std::to_string(*size);
  if (!*row) return damaged(entry + " went away while it was read");
  if ((*query)->blob(0) != base::as_bytes(edge->root())) {
    return damaged(entry + " is the last and does not carry the root of the book");
  }
  if ((*query)->blob(1) != base::as_bytes(hash_leaf((*query)->blob(2)))) {
    return unlike_its_hash(*size);
  }
  return edge;
}

base::Status<> check_continues(Connection& connection, const TreeHead& last) {
  auto size = stored_size(connection);
  if (!size.ok()) return size.error();
  if (*size < last.size) {
    return damaged("the book ends at entry " + std::to_string(*size) + ", but entry " +
                   std::to_string(last.size) + " had been recorded");
  }
  auto edge = stored_edge(connection, last.size);
  if (!edge.ok()) return edge.error();
  if (edge->root() != last.root) {
    return damaged("the first " + std::to_string(last.size) +
                   " entries are not those that were recorded");
  }
  return base::Done{};
}

}  // namespace benchwarden::book
