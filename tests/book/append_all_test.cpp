#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "book/book_fixture.h"
#include "book/read_book.h"

namespace benchwarden::book {
namespace {

using base::ErrorCode;
using testing::drain;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

class AppendAll : public testing::BookTest {
 protected:
  void SetUp() override {
    open();
    append(1, 2);
    book_->follow([this](const entries::Entry& entry) { heard_.push_back(entry.seq); });
  }
  std::vector<std::uint64_t> heard_;
};

TEST_F(AppendAll, RecordsInOrderInOneCommit) {
  const auto roots = testing::sql_number(folder(), "SELECT count(root) FROM entry");
  const auto receipts = book_->append_all({drain(3), drain(4), drain(5)});
  ASSERT_TRUE(receipts.ok()) << receipts.error().detail;
  ASSERT_EQ(receipts->size(), 3U);
  EXPECT_EQ(receipts->front().seq, 3U);
  EXPECT_EQ(receipts->back().seq, 5U);
  EXPECT_THAT(heard_, ElementsAre(3, 4, 5));
  EXPECT_EQ(book_->head().size, 5U);
  EXPECT_EQ(testing::sql_number(folder(), "SELECT count(root) FROM entry"), roots + 1);
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(AppendAll, RecordsNoneWhenOneCannotBe) {
  const TreeHead before = book_->head();
  Draft bad = drain(5);
  bad.subjects = {"two\nlines"};
  Draft other = drain(1);
  other.content.reason = "something else";
  for (const auto& [drafts, code] : std::vector<std::pair<std::vector<Draft>, ErrorCode>>{
           {{drain(3), bad, drain(4)}, ErrorCode::kInvalid},
           {{drain(3), other}, ErrorCode::kConflict},
           {{drain(3), drain(2)}, ErrorCode::kConflict},
           {{drain(3), drain(3)}, ErrorCode::kConflict}}) {
    const auto refused = book_->append_all(drafts);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, code) << refused.error().detail;
    EXPECT_EQ(book_->head(), before);
  }
  EXPECT_THAT(heard_, IsEmpty());
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(AppendAll, OfNothingIsNothing) {
  const auto receipts = book_->append_all({});
  ASSERT_TRUE(receipts.ok());
  EXPECT_THAT(*receipts, IsEmpty());
  EXPECT_EQ(book_->head().size, 2U);
}

TEST_F(AppendAll, KeepsTheTimeOfAnEntryThatIsPutBack) {
  Draft old = drain(3);
  old.recorded_at = base::Instant{1'700'000'000'000};
  ASSERT_TRUE(book_->append_all({old, drain(4)}).ok());
  EXPECT_EQ(book_->entry(3)->recorded_at, *old.recorded_at);
  EXPECT_EQ(book_->entry(4)->recorded_at, clock_.now());
}

TEST_F(AppendAll, IsSeenByAReaderThatHoldsNoLockAndReadsOneState) {
  auto read = ReadBook::open(folder(), vocabulary_);
  ASSERT_TRUE(read.ok()) << read.error().detail;
  ASSERT_TRUE(book_->append_all({drain(3)}).ok());
  std::vector<std::uint64_t> seen;
  const auto walked = read->each([&](const entries::Entry& entry) -> base::Status<> {
    seen.push_back(entry.seq);
    return base::Done{};
  });
  ASSERT_TRUE(walked.ok());
  EXPECT_THAT(seen, ElementsAre(1, 2));
  EXPECT_EQ(read->head().size, 2U);
  EXPECT_EQ(read->head().root, *book_->root_at(2));
}

}  // namespace
}  // namespace benchwarden::book
