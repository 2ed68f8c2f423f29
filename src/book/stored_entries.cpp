#include "book/stored_entries.h"

#include "book/queries.h"
#include "book/stored_tree.h"

namespace benchwarden::book {

base::Result<entries::Entry> StoredEntries::entry(const base::Uuid& id) const {
  auto leaf = leaf_of(connection_, id);
  if (!leaf.ok()) return leaf.error();
  return entries::read_leaf(*leaf, vocabulary_);
}

base::Result<std::vector<entries::Entry>> StoredEntries::corrections_of(
    const base::Uuid& id) const {
  return read_leaves(leaves_correcting(connection_, id), vocabulary_);
}

base::Result<base::Sha256Digest> StoredEntries::root_at(std::uint64_t size) const {
  auto edge = stored_edge(connection_, size);
  if (!edge.ok()) return edge.error();
  return edge->root();
}

base::Result<std::vector<entries::Entry>> read_leaves(
    const base::Result<std::vector<std::string>>& leaves, const entries::Vocabulary& vocabulary) {
  if (!leaves.ok()) return leaves.error();
  std::vector<entries::Entry> read;
  read.reserve(leaves->size());
  for (const std::string& leaf : *leaves) {
    auto entry = entries::read_leaf(leaf, vocabulary);
    if (!entry.ok()) return entry.error();
    read.push_back(*std::move(entry));
  }
  return read;
}

}  // namespace benchwarden::book
