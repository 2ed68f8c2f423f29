#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <utility>

#include "base/result.h"
#include "book/book.h"
#include "book/connection.h"

namespace benchwarden::book {

/// `folder`/derived.db: the newest snapshot of the tallies. It follows from the book, so it is no
/// part of what is proven, and a file in which anything is damaged is thrown away as soon as that
/// shows: at the opening, or when a snapshot is read, which bears its own hash, or kept. So a start
/// reads no more of it than the snapshot. Safe from many threads.
class SnapshotFile {
 public:
  static base::Result<std::unique_ptr<SnapshotFile>> open(const std::filesystem::path& folder);

  /// The snapshot in `folder`, read beside whoever has it open, and nothing made or removed.
  static std::optional<Book::Snapshot> look(const std::filesystem::path& folder);

  base::Status<> keep(const Book::Snapshot& snapshot);
  /// nullopt when there is none, or when it does not match its own hash.
  std::optional<Book::Snapshot> read();

 private:
  explicit SnapshotFile(std::filesystem::path path) : path_(std::move(path)) {}
  base::Status<> connect();
  void throw_away();
  base::Status<> write(const Book::Snapshot& snapshot);

  std::filesystem::path path_;
  std::mutex mutex_;
  std::optional<Connection> connection_;  ///< none where the file was thrown away
};

}  // namespace benchwarden::book
