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

/// The things an entry is about, as its form says; asked in book order.
using SubjectsOf = std::function<std::vector<std::string>(const entries::Entry&)>;

/// Reads the whole book without changing it: leaf syntax and numbering, leaf hashes, interior
/// hashes, stored roots, last-head file (so that a cut-off end shows), index columns, subject
/// index, attachments against their digests, and the schema with its triggers. Names the first bad
/// entry. Works beside a process that is appending. The subject index lies outside the tree and is
/// held to a hash in its entry's row; with `subjects_of` also to what the entry itself says.
/// kNotFound: no book there; kConflict: of another schema version; kUnavailable: cannot be read
/// now.
base::Result<VerifyReport> verify(const std::filesystem::path& folder,
                                  const entries::Vocabulary& vocabulary,
                                  const SubjectsOf& subjects_of = {});

/// For a book that refuses to open because its end does not fit the last-head file, after a person
/// has looked at what `verify` found: takes the book as it stands for whole from now on.
/// kUnavailable while a process has the book open; kDamaged when its own hashes do not match.
base::Status<> accept_end(const std::filesystem::path& folder);

}  // namespace benchwarden::book
