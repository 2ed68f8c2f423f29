#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>

#include <cassert>
#include <utility>

#include "sqlite/database.h"
#include "sqlite/error.h"

namespace benchwarden::sqlite {

Statement::Statement(std::unique_ptr<SQLite::Statement> statement)
    : statement_(std::move(statement)) {}
Statement::Statement(Statement&&) noexcept = default;
Statement& Statement::operator=(Statement&&) noexcept = default;
Statement::~Statement() = default;

template <class Binding>
Statement& Statement::attempt(Binding binding) {
  try {
    binding(*statement_);
  } catch (const SQLite::Exception& exception) {
    if (!binding_error_)
      binding_error_ = to_error("binding to " + statement_->getQuery(), exception);
  }
  return *this;
}

Statement& Statement::bind(int index, std::int64_t value) {
  return attempt([&](SQLite::Statement& statement) { statement.bind(index, value); });
}

Statement& Statement::bind(int index, std::string_view text) {
  return attempt([&](SQLite::Statement& statement) { statement.bind(index, std::string(text)); });
}

Statement& Statement::bind_blob(int index, std::string_view bytes) {
  // A null pointer would bind NULL; an empty blob is not NULL.
  const void* data = bytes.empty() ? "" : bytes.data();
  return attempt([&](SQLite::Statement& statement) {
    statement.bind(index, data, static_cast<int>(bytes.size()));
  });
}

Statement& Statement::bind_long_blob(int index, std::string_view bytes) {
  const void* data = bytes.empty() ? "" : bytes.data();
  return attempt([&](SQLite::Statement& statement) {
    statement.bindNoCopy(index, data, static_cast<int>(bytes.size()));
  });
}

Statement& Statement::bind_null(int index) {
  return attempt([&](SQLite::Statement& statement) { statement.bind(index); });
}

base::Result<bool> Statement::step() {
  if (binding_error_) return *binding_error_;
  try {
    return statement_->executeStep();
  } catch (const SQLite::Exception& exception) {
    return to_error(statement_->getQuery(), exception);
  }
}

base::Status<> Statement::run() {
  auto row = step();
  while (row.ok() && *row) row = step();
  reset();
  if (!row.ok()) return row.error();
  return base::Done{};
}

void Statement::reset() {
  // The code of a reset repeats that of the last step, which `step` has told already.
  static_cast<void>(statement_->tryReset());
  attempt([](SQLite::Statement& statement) { statement.clearBindings(); });
  binding_error_.reset();
}

std::int64_t Statement::integer(int column) const {
  assert(statement_->hasRow());
  return statement_->getColumn(column).getInt64();
}

std::string Statement::text(int column) const {
  assert(statement_->hasRow());
  return statement_->getColumn(column).getString();
}

std::string Statement::blob(int column) const {
  assert(statement_->hasRow());
  return statement_->getColumn(column).getString();
}

bool Statement::is_null(int column) const {
  assert(statement_->hasRow());
  return statement_->isColumnNull(column);
}

}  // namespace benchwarden::sqlite
