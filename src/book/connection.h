#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/sha256.h"
#include "sqlite/database.h"

namespace benchwarden::book {

/// A statement while it is used: reset at the end of the scope, so that it never pins the log.
class StatementInUse {
 public:
  explicit StatementInUse(sqlite::Statement& statement) : statement_(&statement) {}
  StatementInUse(StatementInUse&& other) noexcept;
  StatementInUse& operator=(StatementInUse&&) = delete;
  StatementInUse(const StatementInUse&) = delete;
  StatementInUse& operator=(const StatementInUse&) = delete;
  ~StatementInUse();
  sqlite::Statement* operator->() { return statement_; }
  sqlite::Statement& operator*() { return *statement_; }

 private:
  sqlite::Statement* statement_;
};

/// A connection that prepares each of its statements once. For one thread at a time.
class Connection {
 public:
  explicit Connection(sqlite::Database database) : database_(std::move(database)) {}

  sqlite::Database& database() { return database_; }
  /// The same text must not be in use twice at once.
  base::Result<StatementInUse> statement(std::string_view sql);

 private:
  sqlite::Database database_;
  std::map<std::string, sqlite::Statement, std::less<>> statements_;  // end before their database
};

/// The digest in a blob column; kDamaged when it is not 32 bytes long.
base::Result<base::Sha256Digest> digest_of_blob(std::string_view bytes);

}  // namespace benchwarden::book
