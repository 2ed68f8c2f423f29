#include "book/read_only.h"

#include <fcntl.h>
#include <unistd.h>

#include <string>
#include <system_error>

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

}  // namespace benchwarden::book
