#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/verify.h"
#include "seal/checkpoint.h"
#include "seal/note.h"

namespace benchwarden::workshop {

/// A signed note that is a checkpoint.
struct SignedCheckpoint {
  seal::Note note;
  seal::Checkpoint checkpoint;
};
/// kInvalid says what it is not.
base::Result<SignedCheckpoint> read_signed_checkpoint(std::string_view bytes);

/// What is wrong with the checkpoints of a book: each must be signed by its own key under the name
/// of this book, and say what the book says of that size. Notes: how far the signatures reach, and
/// where another key begins.
struct SealsFound {
  std::vector<std::string> faults;
  std::vector<std::string> notes;
};
SealsFound check_seals(const book::CheckpointedTree& tree, std::uint64_t book_size);

}  // namespace benchwarden::workshop
