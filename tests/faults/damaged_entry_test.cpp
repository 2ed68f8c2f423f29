#include <gtest/gtest.h>

#include "book/book_fixture.h"

namespace benchwarden {
namespace {

using base::ErrorCode;

/// A byte of one stored entry is another, so that it still reads well, and nothing else is wrong.
class DamagedEntry : public testing::BookTest {
 protected:
  void SetUp() override {
    open();
    append(1, 5);
    close();
    testing::tamper(folder(),
                    "UPDATE entry SET leaf = CAST(replace(CAST(leaf AS TEXT), '\"volume_ml\":3', "
                    "'\"volume_ml\":4') AS BLOB) WHERE seq = 3");
    open();
  }
};

TEST_F(DamagedEntry, IsNeverServed) {
  const auto by_seq = book_->entry(3);
  ASSERT_FALSE(by_seq.ok());
  EXPECT_EQ(by_seq.error().code, ErrorCode::kDamaged);
  EXPECT_EQ(by_seq.error().detail, "entry 3 does not match its leaf hash");
  EXPECT_EQ(book_->entry(testing::id_of(3)).error().code, ErrorCode::kDamaged);
  EXPECT_EQ(book_->select({}).error().code, ErrorCode::kDamaged);
  book::Selection about;
  about.subject = "container/w1";
  EXPECT_EQ(book_->select(about).error().code, ErrorCode::kDamaged);
  const auto visit = [](const entries::Entry&) -> base::Status<> { return base::Done{}; };
  EXPECT_EQ(book_->each(1, visit).error().code, ErrorCode::kDamaged);
  EXPECT_EQ(book_->inclusion(3, 5).error().code, ErrorCode::kDamaged);
}

TEST_F(DamagedEntry, IsNotWhatTheSameEntrySentAgainIsAnsweredFrom) {
  close();
  // What is changed is not of the content, in which a repeat would differ.
  testing::tamper(
      folder(),
      "UPDATE entry SET leaf = CAST(replace(CAST(leaf AS TEXT), '\"recorded_at\":\"20', "
      "'\"recorded_at\":\"21') AS BLOB) WHERE seq = 2");
  open();
  const auto again = book_->append(testing::drain(2));
  ASSERT_FALSE(again.ok());
  EXPECT_EQ(again.error().detail, "entry 2 does not match its leaf hash");
  EXPECT_TRUE(book_->append(testing::drain(1))->already_there);
}

TEST_F(DamagedEntry, LeavesTheOthersReadableAndTheBookGoingOn) {
  EXPECT_EQ(testing::number_of(*book_->entry(2)), 2U);
  book::Selection after;
  after.after_seq = 3;
  EXPECT_EQ(book_->select(after)->size(), 2U);
  append(6, 6);
  const auto report = verified();
  ASSERT_FALSE(report.faults.empty());
  EXPECT_EQ(report.faults[0].seq, 3U);
}

}  // namespace
}  // namespace benchwarden
