#pragma once

#include <string>
#include <vector>

#include "book/connection.h"
#include "book/entry_source.h"
#include "entries/leaf.h"

namespace benchwarden::book {

/// Entries read from one connection, as long as it is held.
class StoredEntries final : public EntrySource {
 public:
  StoredEntries(Connection& connection, const entries::Vocabulary& vocabulary)
      : connection_(connection), vocabulary_(vocabulary) {}

  base::Result<entries::Entry> entry(const base::Uuid& id) const override;
  base::Result<std::vector<entries::Entry>> corrections_of(const base::Uuid& id) const override;
  base::Result<base::Sha256Digest> root_at(std::uint64_t size) const override;

 private:
  Connection& connection_;
  const entries::Vocabulary& vocabulary_;
};

/// The entries of these leaves; the first that cannot be read is the error.
base::Result<std::vector<entries::Entry>> read_leaves(
    const base::Result<std::vector<std::string>>& leaves, const entries::Vocabulary& vocabulary);

}  // namespace benchwarden::book
