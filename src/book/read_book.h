#pragma once

#include <filesystem>
#include <functional>

#include "base/result.h"
#include "book/book.h"
#include "book/connection.h"

namespace benchwarden::book {

/// The book in `folder` in one state, read beside a process that appends and without its lock.
class ReadBook {
 public:
  /// kNotFound: no book there; kConflict: of another schema version; kDamaged: its end does not
  /// hold. `vocabulary` outlives it.
  static base::Result<ReadBook> open(const std::filesystem::path& folder,
                                     const entries::Vocabulary& vocabulary);

  [[nodiscard]] TreeHead head() const { return head_; }
  /// Every entry in book order, until `visit` returns an error.
  base::Status<> each(const std::function<base::Status<>(const entries::Entry&)>& visit);
  /// Every checkpoint, in the order they were kept.
  base::Result<std::vector<KeptCheckpoint>> checkpoints();
  base::Result<std::string> attachment(const base::Sha256Digest& digest);

 private:
  ReadBook(Connection connection, TreeHead head, const entries::Vocabulary& vocabulary)
      : connection_(std::move(connection)), head_(head), vocabulary_(&vocabulary) {}

  Connection connection_;
  TreeHead head_;
  const entries::Vocabulary* vocabulary_;
};

}  // namespace benchwarden::book
