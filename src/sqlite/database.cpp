#include "sqlite/database.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "sqlite/error.h"

namespace benchwarden::sqlite {
namespace {

constexpr int kBusyTimeoutMs = 5000;
// Keeps a log that once grew large (a long read, a restore) from staying that large for ever.
constexpr const char* kWriterPragmas =
    "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA journal_size_limit=16777216;";
// Recursive triggers make INSERT OR REPLACE fire the triggers that refuse DELETE.
constexpr const char* kCommonPragmas =
    "PRAGMA foreign_keys=ON; PRAGMA trusted_schema=OFF; PRAGMA recursive_triggers=ON;";

int flags_of(Mode mode) {
  // No mutex inside SQLite: one connection is used by one thread at a time.
  switch (mode) {
    case Mode::kReadOnly:
      return SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX;
    case Mode::kReadOnlyMedium:
      return SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_URI;
    case Mode::kReadWriteCreate:
      break;
  }
  return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX;
}

/// As the library wants it: a path, or for a medium that nobody writes a URI that says so.
std::string name_of(const std::string& path, Mode mode) {
  if (mode != Mode::kReadOnlyMedium) return path;
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string uri = "file:";
  for (const char c : path) {
    if (c == '%' || c == '?' || c == '#') {
      const auto byte = static_cast<unsigned char>(c);
      uri.append({'%', kHex[byte >> 4U], kHex[byte & 15U]});
    } else {
      uri += c;
    }
  }
  return uri + "?immutable=1";
}

/// Why the system opens none of the files of a database, where it says so; SQLite does not.
std::string why_closed(const std::string& path) {
  for (const char* suffix : {"", "-wal", "-shm"}) {
    const std::string file = path + suffix;
    std::error_code failure;
    if (std::filesystem::is_directory(file, failure)) return "; " + file + " is a folder";
    if (::access(file.c_str(), R_OK | W_OK) != 0 && errno != ENOENT) {
      return "; " + file + ": " + std::generic_category().message(errno);
    }
  }
  return {};
}

}  // namespace

Database::Database(std::unique_ptr<SQLite::Database> database) : database_(std::move(database)) {}
Database::Database(Database&&) noexcept = default;
Database& Database::operator=(Database&&) noexcept = default;
Database::~Database() = default;

base::Result<Database> Database::open(const std::string& path, Mode mode) {
  try {
    auto database =
        std::make_unique<SQLite::Database>(name_of(path, mode), flags_of(mode), kBusyTimeoutMs);
    if (mode == Mode::kReadWriteCreate) database->exec(kWriterPragmas);
    database->exec(kCommonPragmas);
    // The first look at the file's pages, so that a file that is no database is told now.
    SQLite::Statement(*database, "PRAGMA schema_version").executeStep();
    // Otherwise that would show at the first entry, and at each after it, though the disk may be in
    // order again long since.
    if (mode == Mode::kReadWriteCreate && sqlite3_db_readonly(database->getHandle(), "main") == 1) {
      return base::Error{base::ErrorCode::kUnavailable,
                         path + " can be read and not written: look at its rights and its disk"};
    }
    return Database(std::move(database));
  } catch (const SQLite::Exception& exception) {
    base::Error error = to_error("opening " + path, exception);
    if (exception.getErrorCode() == SQLITE_CANTOPEN) error.detail += why_closed(path);
    return error;
  }
}

std::string Database::file() const { return database_->getFilename(); }

base::Status<> Database::execute(std::string_view sql) {
  try {
    database_->exec(std::string(sql));
    return base::Done{};
  } catch (const SQLite::Exception& exception) {
    return to_error(sql, exception);
  }
}

base::Result<Statement> Database::prepare(std::string_view sql) {
  try {
    return Statement(std::make_unique<SQLite::Statement>(*database_, std::string(sql)));
  } catch (const SQLite::Exception& exception) {
    return to_error(sql, exception);
  }
}

base::Result<std::string> Database::blob_beginning(const std::string& table,
                                                   const std::string& column, std::int64_t rowid,
                                                   std::size_t count) {
  sqlite3_blob* opened = nullptr;
  const int found = sqlite3_blob_open(database_->getHandle(), "main", table.c_str(), column.c_str(),
                                      rowid, 0, &opened);
  const std::unique_ptr<sqlite3_blob, int (*)(sqlite3_blob*)> blob(opened, sqlite3_blob_close);
  if (found == SQLITE_ERROR) {
    return base::Error{base::ErrorCode::kNotFound, table + " has no row " + std::to_string(rowid)};
  }
  std::string bytes(
      std::min(count, blob ? static_cast<std::size_t>(sqlite3_blob_bytes(opened)) : 0), '\0');
  const int read =
      blob ? sqlite3_blob_read(opened, bytes.data(), static_cast<int>(bytes.size()), 0) : found;
  if (read == SQLITE_OK) return bytes;
  return to_error("reading " + table + "." + column,
                  SQLite::Exception(sqlite3_errmsg(database_->getHandle()), read));
}

base::Status<> Database::set_busy_timeout_ms(int milliseconds) {
  try {
    database_->setBusyTimeout(milliseconds);
    return base::Done{};
  } catch (const SQLite::Exception& exception) {
    return to_error("setting the waiting time", exception);
  }
}

}  // namespace benchwarden::sqlite
