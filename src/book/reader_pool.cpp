#include "book/reader_pool.h"

#include <utility>

namespace benchwarden::book {

base::Result<std::unique_ptr<ReaderPool>> ReaderPool::open(const std::filesystem::path& folder) {
  std::unique_ptr<ReaderPool> pool(new ReaderPool);
  const std::string path = (folder / "book.db").string();
  for (std::size_t i = 0; i < kConnections; ++i) {
    auto database = sqlite::Database::open(path, sqlite::Mode::kReadOnly);
    if (!database.ok()) return database.error();
    pool->idle_.push_back(std::make_unique<Connection>(*std::move(database)));
  }
  return pool;
}

ReaderPool::Loan ReaderPool::borrow() {
  std::unique_lock lock(mutex_);
  returned_.wait(lock, [&] { return !idle_.empty(); });
  std::unique_ptr<Connection> connection = std::move(idle_.back());
  idle_.pop_back();
  return {*this, std::move(connection)};
}

void ReaderPool::give_back(std::unique_ptr<Connection> connection) {
  {
    const std::lock_guard lock(mutex_);
    idle_.push_back(std::move(connection));
  }
  returned_.notify_one();
}

}  // namespace benchwarden::book
