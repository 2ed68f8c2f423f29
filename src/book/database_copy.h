#pragma once

#include <filesystem>

#include "base/result.h"
#include "base/sha256.h"
#include "book/connection.h"

namespace benchwarden::book {

/// Writes what the database `from` holds at one moment into the new file `to`, beside whoever
/// writes it. Only what it holds: nothing of what was deleted from it goes along.
base::Status<> copy_database(const std::filesystem::path& from, const std::filesystem::path& to);

/// SQLite's own look at all pages and indexes of a file, read only. kDamaged, saying what.
base::Status<> check_database(const std::filesystem::path& file);
base::Status<> check_database(Connection& connection, const std::filesystem::path& file);

struct FileFacts {
  std::uint64_t bytes = 0;
  base::Sha256Digest digest{};
  friend bool operator==(const FileFacts&, const FileFacts&) = default;
};
/// Length and SHA-256 of a regular file, read piece by piece. kNotFound, kUnavailable, naming it.
base::Result<FileFacts> facts_of(const std::filesystem::path& file);

}  // namespace benchwarden::book
