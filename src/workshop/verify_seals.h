#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/verify.h"
#include "entries/entry.h"
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

/// A report whose figures were signed with the book as it was then, as its entry says.
struct SignedFigures {
  std::uint64_t entry = 0;
  std::uint64_t book_size = 0;
  std::string digest;
};
/// None of an entry that says so of no report; the first versions signed none.
std::optional<SignedFigures> signed_figures_of(const entries::Entry& entry);

/// What is wrong with the checkpoints of a book: none may be missing, neither by its number nor by
/// what entries say of `reports`; each must be signed by its own key under the name
/// of this book, and say what the book says of that size. Notes: how far the signatures reach, and
/// where another key begins.
struct SealsFound {
  std::vector<std::string> faults;
  std::vector<std::string> notes;
};
SealsFound check_seals(const book::CheckpointedTree& tree, std::uint64_t book_size,
                       const std::vector<SignedFigures>& reports);

}  // namespace benchwarden::workshop
