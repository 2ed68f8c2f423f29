#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <csignal>
#include <thread>

#include "book/book_fixture.h"
#include "sqlite/database.h"

namespace benchwarden::book {
namespace {

using base::ErrorCode;
using testing::drain;
using ::testing::IsEmpty;

/// While it stands, no file of this process can grow beyond `bytes`: the system refuses the write
/// as it would on a full disk.
class FileSizeLimit {
 public:
  explicit FileSizeLimit(std::uintmax_t bytes) {
    old_handler_ = std::signal(SIGXFSZ, SIG_IGN);
    EXPECT_EQ(::getrlimit(RLIMIT_FSIZE, &old_limit_), 0);
    rlimit limit = old_limit_;
    limit.rlim_cur = bytes;
    EXPECT_EQ(::setrlimit(RLIMIT_FSIZE, &limit), 0);
  }
  FileSizeLimit(const FileSizeLimit&) = delete;
  FileSizeLimit& operator=(const FileSizeLimit&) = delete;
  ~FileSizeLimit() {
    EXPECT_EQ(::setrlimit(RLIMIT_FSIZE, &old_limit_), 0);
    std::signal(SIGXFSZ, old_handler_);
  }

 private:
  rlimit old_limit_{};
  void (*old_handler_)(int) = nullptr;
};

class CommitFailure : public testing::BookTest {
 protected:
  void SetUp() override {
    open();
    append(1, 5);
  }
  [[nodiscard]] std::uintmax_t log_bytes() const {
    return std::filesystem::file_size(folder() / "book.db-wal");
  }
};

TEST_F(CommitFailure, AnswersUnavailableAndRecordsNothing) {
  const TreeHead before = book_->head();
  std::vector<std::uint64_t> heard;
  book_->follow([&](const entries::Entry& entry) { heard.push_back(entry.seq); });
  {
    const FileSizeLimit limit(log_bytes());
    auto refused = book_->append(drain(6));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::kUnavailable) << refused.error().detail;
  }
  EXPECT_EQ(book_->head(), before);
  EXPECT_THAT(heard, IsEmpty());
  EXPECT_EQ(book_->entry(testing::id_of(6)).error().code, ErrorCode::kNotFound);
  auto again = book_->append(drain(6));
  ASSERT_TRUE(again.ok()) << again.error().detail;
  EXPECT_FALSE(again->already_there);
  EXPECT_EQ(again->seq, 6U);
  EXPECT_THAT(verified().faults, IsEmpty());
  close();
  open();
  EXPECT_EQ(book_->head().size, 6U);
}

TEST_F(CommitFailure, AnswersUnavailableToTheWholeGroup) {
  std::vector<std::optional<ErrorCode>> answers(16);
  const auto append_all = [&](std::uint64_t first) {
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < answers.size(); ++i) {
      threads.emplace_back([&, i] {
        auto receipt = book_->append(drain(first + i));
        answers[i] = receipt.ok() ? std::nullopt : std::optional(receipt.error().code);
      });
    }
    for (std::thread& thread : threads) thread.join();
  };
  {
    const FileSizeLimit limit(log_bytes());
    append_all(100);
  }
  for (const auto& answer : answers) EXPECT_EQ(answer, ErrorCode::kUnavailable);
  EXPECT_EQ(book_->head().size, 5U);
  append_all(100);
  for (const auto& answer : answers) EXPECT_EQ(answer, std::nullopt);
  EXPECT_EQ(book_->head().size, 21U);
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(CommitFailure, AForeignWriteLockIsWaitedForAndThenUnavailable) {
  auto foreign =
      sqlite::Database::open((folder() / "book.db").string(), sqlite::Mode::kReadWriteCreate);
  ASSERT_TRUE(foreign.ok());
  {
    auto held = sqlite::Transaction::begin(*foreign);
    ASSERT_TRUE(held.ok());
    auto refused = book_->append(drain(6));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::kUnavailable);
    EXPECT_TRUE(book_->entry(5).ok()) << "reading goes on";
  }
  EXPECT_EQ(book_->append(drain(6))->seq, 6U);
}

}  // namespace
}  // namespace benchwarden::book
