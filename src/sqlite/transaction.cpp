#include <cassert>
#include <utility>

#include "sqlite/database.h"

namespace benchwarden::sqlite {

base::Result<Transaction> Transaction::begin(Database& database) {
  // IMMEDIATE: a transaction that starts by reading and writes later would fail at once, whatever
  // the waiting time, when somebody else committed in between.
  auto begun = database.execute("BEGIN IMMEDIATE");
  if (!begun.ok()) return begun.error();
  return Transaction(database);
}

Transaction::Transaction(Transaction&& other) noexcept
    : database_(std::exchange(other.database_, nullptr)) {}

Transaction::~Transaction() {
  // A full disk has rolled back by itself already; then there is nothing left to do.
  if (database_ != nullptr) static_cast<void>(database_->execute("ROLLBACK").ok());
}

base::Status<> Transaction::commit() {
  assert(database_ != nullptr);
  auto committed = database_->execute("COMMIT");
  if (committed.ok()) database_ = nullptr;
  return committed;
}

}  // namespace benchwarden::sqlite
