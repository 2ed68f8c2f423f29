#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "book/book.h"

namespace benchwarden::book {

struct VerifyFault {
  std::optional<std::uint64_t> seq;  ///< the first bad entry, where one can be named
  std::string what;
};
struct VerifyReport {
  TreeHead head;                    ///< recomputed from the leaves
  std::vector<VerifyFault> faults;  ///< by seq, those without one last; empty: every byte matches
};

/// What the forms and the tallies say of a book. Both are asked in book order of every entry whose
/// leaf holds, but not of corrections of one whose leaf does not; `book` answers for the entries it
/// names. An error that is not kUnavailable is a fault of that entry. Both are asked in the thread
/// that called `verify`; the vocabulary is asked in another at the same time.
struct Meaning {
  /// The things the entry is about, sorted, each once.
  std::function<base::Result<std::vector<std::string>>(const entries::Entry&, const EntrySource&)>
      subjects_of;
  /// Takes the entry in.
  std::function<base::Status<>(const entries::Entry&, const EntrySource&)> follow;
};

/// Reads the whole book without changing it: leaf syntax and numbering, leaf hashes, interior
/// hashes, stored roots, last-head file (so that a cut-off end shows), index columns, subject
/// index, attachments against their digests, and the schema with its triggers. Names the first bad
/// entry. Works beside a process that is appending. The subject index lies outside the tree and is
/// held to a hash in its entry's row; with `meaning` also to what the entry itself says.
/// kNotFound: no book there; kConflict: of a newer schema; kDamaged: nothing in it can be read;
/// kUnavailable: cannot be read now.
base::Result<VerifyReport> verify(const std::filesystem::path& folder,
                                  const entries::Vocabulary& vocabulary,
                                  const Meaning& meaning = {});

/// The checkpoints kept in a book, and beside each what the book says of that size today.
struct CheckpointedTree {
  std::optional<base::Sha256Digest> first_leaf;  ///< the leaf hash of entry 1
  std::vector<KeptCheckpoint> kept;
  std::vector<std::optional<base::Sha256Digest>> roots;  ///< none: the book has no such size
};
/// Errors as verify.
base::Result<CheckpointedTree> stored_checkpoints(const std::filesystem::path& folder);

/// The root over its first `size` entries, from the stored hashes; none where it has no such size.
base::Result<std::optional<base::Sha256Digest>> stored_root(const std::filesystem::path& folder,
                                                            std::uint64_t size);

/// The snapshot of the tallies stored in `folder`; none when there is none that can be read.
std::optional<Book::Snapshot> stored_snapshot(const std::filesystem::path& folder);

}  // namespace benchwarden::book
