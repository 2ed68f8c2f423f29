#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>
#include <variant>

#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

struct Blob {
  explicit Blob(std::string_view value) : bytes(value) {}
  std::string_view bytes;
};
struct Null {};
/// Views must live until the statement has run.
using Value = std::variant<Null, std::int64_t, std::string_view, Blob>;

/// Prepared, the values bound in order to ?1, ?2 …
base::Result<sqlite::Statement> query(sqlite::Database& database, std::string_view sql,
                                      std::initializer_list<Value> values = {});
base::Status<> run(sqlite::Database& database, std::string_view sql,
                   std::initializer_list<Value> values = {});
/// The statement standing on its first row, or none.
base::Result<std::optional<sqlite::Statement>> first_row(sqlite::Database& database,
                                                         std::string_view sql,
                                                         std::initializer_list<Value> values = {});

}  // namespace benchwarden::access
