#include "access/query.h"

#include <utility>

namespace benchwarden::access {
namespace {

struct Binder {
  sqlite::Statement& statement;
  int index;
  void operator()(Null) const { statement.bind_null(index); }
  void operator()(std::int64_t value) const { statement.bind(index, value); }
  void operator()(std::string_view text) const { statement.bind(index, text); }
  void operator()(const Blob& blob) const { statement.bind_blob(index, blob.bytes); }
};

}  // namespace

base::Result<sqlite::Statement> query(sqlite::Database& database, std::string_view sql,
                                      std::initializer_list<Value> values) {
  auto statement = database.prepare(sql);
  if (!statement) return statement.error();
  int index = 0;
  for (const Value& value : values) std::visit(Binder{*statement, ++index}, value);
  return statement;
}

base::Status<> run(sqlite::Database& database, std::string_view sql,
                   std::initializer_list<Value> values) {
  auto statement = query(database, sql, values);
  if (!statement) return statement.error();
  return statement->run();
}

base::Result<std::optional<sqlite::Statement>> first_row(sqlite::Database& database,
                                                         std::string_view sql,
                                                         std::initializer_list<Value> values) {
  auto statement = query(database, sql, values);
  if (!statement) return statement.error();
  const auto row = statement->step();
  if (!row) return row.error();
  if (!*row) return std::optional<sqlite::Statement>();
  return std::optional<sqlite::Statement>(*std::move(statement));
}

}  // namespace benchwarden::access
