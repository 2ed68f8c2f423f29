#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace benchwarden::sqlite {

/// kReadOnly needs a file that is there, and a folder in which SQLite may keep its shared index.
/// kReadOnlyMedium needs neither folder nor locks, and takes it that nobody writes meanwhile; what
/// stands in a write-ahead log is not seen.
enum class Mode { kReadWriteCreate, kReadOnly, kReadOnlyMedium };

class Statement;

/// One connection, for one thread at a time; it must outlive its statements. WAL,
/// synchronous=FULL, foreign keys on, trusted schema off, a waiting time of 5 s for a lock that
/// another holds. The library's exceptions end here: kUnavailable for busy, a full disk or a
/// failed write, kDamaged for a file that is no database, kConflict for a broken constraint or a
/// trigger that refused, kInvalid for SQL that does not fit the schema.
class Database {
 public:
  static base::Result<Database> open(const std::string& path, Mode mode);
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;
  Database(Database&&) noexcept;
  Database& operator=(Database&&) noexcept;
  ~Database();

  /// One or more statements whose rows, if any, are of no interest.
  base::Status<> execute(std::string_view sql);
  base::Result<Statement> prepare(std::string_view sql);
  /// Up to `count` bytes from the beginning of one blob; the rest of a long one is not read.
  /// kNotFound: no such row.
  base::Result<std::string> blob_beginning(const std::string& table, const std::string& column,
                                           std::int64_t rowid, std::size_t count);
  /// How long a statement waits for another connection's lock; 5 000 ms unless said otherwise.
  base::Status<> set_busy_timeout_ms(int milliseconds);
  /// Its path, as it was opened.
  [[nodiscard]] std::string file() const;
  SQLite::Database& raw() { return *database_; }

 private:
  explicit Database(std::unique_ptr<SQLite::Database> database);
  std::unique_ptr<SQLite::Database> database_;
};

/// A prepared statement, to be reused. `reset` after the last row: a statement left open pins the
/// write-ahead log. A binding that fails is told by the next `step` or `run`.
class Statement {
 public:
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  Statement(Statement&&) noexcept;
  Statement& operator=(Statement&&) noexcept;
  ~Statement();

  Statement& bind(int index, std::int64_t value);  ///< indexes count from 1
  Statement& bind(int index, std::string_view text);
  Statement& bind_blob(int index, std::string_view bytes);
  /// The same without a copy: the bytes stay as they are until the statement has run.
  Statement& bind_long_blob(int index, std::string_view bytes);
  Statement& bind_null(int index);

  base::Result<bool> step();  ///< true: a row stands ready
  base::Status<> run();       ///< steps to the end and resets, also after a failure
  void reset();               ///< also clears the bindings

  [[nodiscard]] std::int64_t integer(int column) const;  ///< columns count from 0
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::string blob(int column) const;
  [[nodiscard]] bool is_null(int column) const;

 private:
  friend class Database;
  explicit Statement(std::unique_ptr<SQLite::Statement> statement);
  template <class Binding>
  Statement& attempt(Binding binding);

  std::unique_ptr<SQLite::Statement> statement_;
  std::optional<base::Error> binding_error_;
};

/// BEGIN IMMEDIATE now; rolls back when it goes out of scope uncommitted.
class Transaction {
 public:
  static base::Result<Transaction> begin(Database& database);
  Transaction(Transaction&&) noexcept;
  Transaction& operator=(Transaction&&) = delete;
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  /// After a failure the transaction still rolls back at the end of its scope.
  base::Status<> commit();

 private:
  explicit Transaction(Database& database) : database_(&database) {}
  Database* database_;
};

/// Append-only list of schema steps; `PRAGMA user_version` counts those done. Each runs in a
/// transaction of its own with its bump. A file newer than the list is refused (kConflict).
base::Status<> migrate(Database& database, const std::vector<std::string_view>& steps);
/// What is said of a file with more steps than this program knows.
base::Error newer_format(const std::string& file, std::int64_t version, std::size_t known);

}  // namespace benchwarden::sqlite
