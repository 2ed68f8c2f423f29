#include "book/database_copy.h"

#include <array>
#include <fstream>
#include <string_view>
#include <system_error>

#include "book/read_only.h"

namespace benchwarden::book {

base::Status<> copy_database(const std::filesystem::path& from, const std::filesystem::path& to) {
  auto connection = open_read_only(from);
  if (!connection.ok()) return connection.error();
  auto copy = connection->statement("VACUUM INTO ?");
  if (!copy.ok()) return copy.error();
  auto copied = (*copy)->bind(1, to.string()).run();
  if (copied.ok() || copied.error().code != base::ErrorCode::kInvalid) return copied;
  // The statement is a right one: what SQLite finds wrong with the file it made is the disk's.
  return base::Error{base::ErrorCode::kUnavailable, to.string() + ": " + copied.error().detail};
}

base::Status<> check_database(const std::filesystem::path& file) {
  auto connection = open_read_only(file);
  if (!connection.ok()) return connection.error();
  return check_database(*connection, file);
}

base::Status<> check_database(Connection& connection, const std::filesystem::path& file) {
  auto query = connection.statement("PRAGMA integrity_check(1)");
  if (!query.ok()) return query.error();
  const auto row = (*query)->step();
  if (!row.ok()) return row.error();
  if (*row && (*query)->text(0) == "ok") return base::Done{};
  return base::Error{base::ErrorCode::kDamaged,
                     file.string() + ": " + (*row ? (*query)->text(0) : "cannot be checked")};
}

base::Result<FileFacts> facts_of(const std::filesystem::path& file) {
  std::error_code failure;
  if (!std::filesystem::is_regular_file(file, failure)) {
    return base::Error{base::ErrorCode::kNotFound, file.string() + " is no regular file"};
  }
  std::ifstream stream(file, std::ios::binary);
  base::Sha256Stream hash;
  FileFacts facts;
  std::array<char, 65'536> piece{};
  while (stream.read(piece.data(), piece.size()) || stream.gcount() > 0) {
    const auto got = static_cast<std::size_t>(stream.gcount());
    hash.add({piece.data(), got});
    facts.bytes += got;
  }
  if (!stream.eof()) {
    return base::Error{base::ErrorCode::kUnavailable, file.string() + " cannot be read"};
  }
  facts.digest = hash.finish();
  return facts;
}

}  // namespace benchwarden::book
