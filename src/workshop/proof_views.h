#pragma once

#include <cstdint>
#include <optional>

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
base::Json show_checkpoint(const Ports& ports);
base::Json checkpoint_json(const book::TreeHead& head);

}  // namespace benchwarden::workshop
