#include "book/read_only.h"

#include <fcntl.h>
#include <unistd.h>

#include <string>
#include <system_error>

#include "book/schema.h"

namespace benchwarden::book {
namespace {

bool has_log(const std::filesystem::path& file) {
  std::error_code failure;
  const std::filesystem::path log = file.string() + "-wal";
  return std::filesystem::exists(log, failure) && std::filesystem::file_size(log, failure) > 0;
}

/// With the rights the process acts by, on the medium as it is mounted.
bool can_write_beside(const std::filesystem::path& file) {
  const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : ".";
  return ::faccessat(AT_FDCWD, folder.c_str(), W_OK, AT_EACCESS) == 0;
}

}  // namespace

base::Result<Connection> open_read_only(const std::filesystem::path& file) {
  auto database = sqlite::Database::open(file.string(), sqlite::Mode::kReadOnly);
  if (!database.ok() && database.error().code == base::ErrorCode::kUnavailable &&
      !can_write_beside(file)) {
    if (has_log(file)) {
      return base::Error{base::ErrorCode::kUnavailable,
                         file.string() +
                             " has a write-ahead log beside it, which cannot be read "
                             "in a folder without write permission: copy the folder"};
    }
    database = sqlite::Database::open(file.string(), sqlite::Mode::kReadOnlyMedium);
  }
  if (!database.ok()) return database.error();
  return Connection(*std::move(database));
}

base::Result<std::int64_t> schema_version(Connection& connection) {
  auto query = connection.statement("PRAGMA user_version");
  if (!query.ok()) return query.error();
  auto row = (*query)->step();
  if (!row.ok()) return row.error();
  return (*query)->integer(0);
}

base::Result<Connection> open_book(const std::filesystem::path& folder) {
  const std::filesystem::path path = folder / "book.db";
  std::error_code failure;
  if (!std::filesystem::exists(path, failure)) {
    return base::Error{base::ErrorCode::kNotFound, "there is no book in " + folder.string()};
  }
  auto connection = open_read_only(path);
  if (!connection.ok()) return connection;
  // One state of the book for all checks, however many entries others append meanwhile.
  auto begun = connection->database().execute("BEGIN");
  if (!begun.ok()) return begun.error();
  const auto version = schema_version(*connection);
  if (!version.ok()) return version.error();
  if (*version < 1) {
    return base::Error{base::ErrorCode::kDamaged,
                       path.string() + " is empty or was cut off: no book is in it"};
  }
  const std::size_t known = book_schema().size();
  if (*version > static_cast<std::int64_t>(known)) {
    return sqlite::newer_format(path.string(), *version, known);
  }
  return connection;
}

}  // namespace benchwarden::book
