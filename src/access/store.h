#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <utility>

#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// access.db: one connection, one thread at a time. Its work takes microseconds; hashing a PIN,
/// which takes a tenth of a second, happens outside.
class Store {
 public:
  /// Makes the file with mode 0600 where it is missing and brings its schema up to date.
  static base::Result<std::unique_ptr<Store>> open(const std::filesystem::path& folder);

  /// Runs `work(database)` without a transaction: for single statements.
  template <class Work>
  auto with(Work work) -> decltype(work(std::declval<sqlite::Database&>())) {
    const std::lock_guard held(mutex_);
    return work(database_);
  }

  /// Runs `work(database)` in a transaction: kept if its Result is a value, undone otherwise.
  template <class Work>
  auto change(Work work) -> decltype(work(std::declval<sqlite::Database&>())) {
    const std::lock_guard held(mutex_);
    auto transaction = sqlite::Transaction::begin(database_);
    if (!transaction) return transaction.error();
    auto result = work(database_);
    if (!result.ok()) return result;
    const auto committed = transaction->commit();
    if (!committed) return committed.error();
    return result;
  }

 private:
  explicit Store(sqlite::Database database) : database_(std::move(database)) {}

  std::mutex mutex_;
  sqlite::Database database_;
};

}  // namespace benchwarden::access
