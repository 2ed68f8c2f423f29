#pragma once

#include <filesystem>
#include <functional>
#include <optional>

#include "base/clock.h"
#include "base/result.h"
#include "book/book.h"

namespace benchwarden::book {

/// An end that does not fit the last-head file.
struct OddEnd {
  TreeHead found;                    ///< the book as it stands
  std::optional<TreeHead> expected;  ///< none: the file is missing or cannot be read
  bool file_missing = false;
};

/// For a book that refuses to open because its end does not fit the last-head file, after a person
/// has looked at what `verify` found: takes the book as it stands for whole from now on, and
/// appends the entry of it that `told` makes, so that the acceptance stays in the book for ever.
/// kConflict when the end fits; kUnavailable while a process has the book open; kDamaged when its
/// own hashes do not match.
base::Status<> accept_end(const std::filesystem::path& folder,
                          const entries::Vocabulary& vocabulary, const base::Clock& clock,
                          const std::function<Draft(const OddEnd&)>& told);

}  // namespace benchwarden::book
