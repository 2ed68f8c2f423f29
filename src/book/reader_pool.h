#pragma once

#include <condition_variable>
#include <cstddef>
#include <filesystem>
#include <memory>
#include <mutex>
#include <vector>

#include "base/result.h"
#include "book/connection.h"

namespace benchwarden::book {

/// A few read-only connections for any number of threads; a thread waits while all are lent out.
class ReaderPool {
 public:
  static constexpr std::size_t kConnections = 4;

  /// A connection on loan, given back at the end of the scope. A thread borrows one at a time:
  /// with two, four threads could wait for each other for ever.
  class Loan {
   public:
    Loan(ReaderPool& pool, std::unique_ptr<Connection> connection)
        : pool_(pool), connection_(std::move(connection)) {}
    Loan(const Loan&) = delete;
    Loan& operator=(const Loan&) = delete;
    ~Loan() { pool_.give_back(std::move(connection_)); }
    Connection& operator*() { return *connection_; }

   private:
    ReaderPool& pool_;
    std::unique_ptr<Connection> connection_;
  };

  static base::Result<std::unique_ptr<ReaderPool>> open(const std::filesystem::path& folder);
  Loan borrow();

 private:
  ReaderPool() = default;
  void give_back(std::unique_ptr<Connection> connection);

  std::mutex mutex_;
  std::condition_variable returned_;
  std::vector<std::unique_ptr<Connection>> idle_;
};

}  // namespace benchwarden::book
