#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seal/verifier_key.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What a book signs under, and the first line of its checkpoints: so that it names this book, it
/// has the beginning of the leaf hash of its first entry.
std::string book_origin(const base::Sha256Digest& first_leaf_hash);

/// The head of a tree under the signature of this workshop.
struct SealedHead {
  std::string note;
  std::string verifier_key;
};
/// Signs that head, with further lines, and keeps the note. Nothing is signed that does not go on
/// from the last checkpoint: kDamaged then. kUnavailable: no signing key is open.
base::Result<SealedHead> seal_head(const Ports& ports, const book::TreeHead& head,
                                   const std::vector<std::string>& lines);

/// Signs the book as it is.
base::Status<> seal_book(const Ports& ports);
/// The same, where it has grown since the last checkpoint and that is of another day.
base::Status<> seal_book_daily(const Ports& ports);

}  // namespace benchwarden::workshop
