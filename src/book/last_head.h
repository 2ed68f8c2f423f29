#pragma once

#include <filesystem>
#include <optional>

#include "base/result.h"
#include "book/book.h"

namespace benchwarden::book {

/// `folder`/head.txt: the head of the book as last committed, kept apart from book.db so that an
/// end cut off the book shows. Two records of one disk sector each, written in turn, so that a
/// write torn by a power cut leaves the other whole. A record is written after each commit and not
/// synced: it outlives the death of the process; a power cut can only leave it older than the
/// book, never newer.
class LastHeadFile {
 public:
  /// The newest readable record; nullopt when there is no file. kDamaged when there is a file and
  /// no readable record in it; kUnavailable when it cannot be read now.
  static base::Result<std::optional<TreeHead>> read(const std::filesystem::path& folder);
  /// Writes a new file holding `head`, durable when it returns.
  static base::Status<> create(const std::filesystem::path& folder, const TreeHead& head);
  static base::Result<LastHeadFile> open(const std::filesystem::path& folder);

  LastHeadFile(LastHeadFile&& other) noexcept;
  LastHeadFile& operator=(LastHeadFile&&) = delete;
  LastHeadFile(const LastHeadFile&) = delete;
  LastHeadFile& operator=(const LastHeadFile&) = delete;
  ~LastHeadFile();

  base::Status<> write(const TreeHead& head);
  base::Status<> sync();

 private:
  LastHeadFile(int descriptor, int next_record)
      : descriptor_(descriptor), next_record_(next_record) {}
  int descriptor_;
  int next_record_;  ///< 0 or 1: the one that does not hold the newest
};

}  // namespace benchwarden::book
