#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/json.h"
#include "base/uuid.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// {"seq", "leaf", "leaf_hash", "size", "root", "path"}: what shows with RFC 9162, section 2.1.3.2,
/// that the entry is in the book of that size and root; `size` as the book is now when it is not
/// given. kNotFound as in Book::inclusion. `leaf` is the text that is hashed; hashes
/// are written as elsewhere, the leaf's in hex, those of the tree in base64.
base::Result<base::Json> show_inclusion(const Ports& ports, const base::Uuid& id,
                                        std::optional<std::uint64_t> size);

/// What shows that the book of `from` entries is the beginning of the book of `to` entries, of
/// today's where none is given; hashes in base64. Errors as Book::consistency.
base::Result<base::Json> show_consistency(const Ports& ports, std::uint64_t from,
                                          std::optional<std::uint64_t> to);
/// {"size", "root"}: the head of the tree, root in base64.
base::Json checkpoint_json(const book::TreeHead& head);
/// The same of the book now, and as "signed" its last signed checkpoint; null before the first.
base::Result<base::Json> show_checkpoint(const Ports& ports);
/// {"checkpoints", "next_after"}: the signed ones in the order they were kept.
base::Result<base::Json> list_checkpoints(const Ports& ports, std::uint64_t after_number,
                                          std::size_t limit);

/// The proof file of one entry (C2SP tlog-proof), with its leaf, under the last signed checkpoint.
/// kNotFound: no such entry, or none that is signed yet.
struct ProofFile {
  std::string bytes;
  std::uint64_t seq = 0;
};
base::Result<ProofFile> proof_file(const Ports& ports, const base::Uuid& id);

}  // namespace benchwarden::workshop
