#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>

#include "base/result.h"
#include "book/book.h"
#include "book/connection.h"

namespace benchwarden::book {

/// `folder`/derived.db: the newest snapshot of the tallies. It follows from the book, so it is no
/// part of what is proven, and a file that cannot be read is thrown away. Safe from many threads.
class SnapshotFile {
 public:
  static base::Result<std::unique_ptr<SnapshotFile>> open(const std::filesystem::path& folder);

  /// The snapshot in `folder`, read beside whoever has it open, and nothing made or removed.
  static std::optional<Book::Snapshot> look(const std::filesystem::path& folder);

  base::Status<> keep(const Book::Snapshot& snapshot);
  /// nullopt when there is none, or when it does not match its own hash.
  std::optional<Book::Snapshot> read();

 private:
  explicit SnapshotFile(Connection connection) : connection_(std::move(connection)) {}
  std::mutex mutex_;
  Connection connection_;
};

}  // namespace benchwarden::book
