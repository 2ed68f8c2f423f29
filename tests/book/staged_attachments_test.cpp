#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "book/book_fixture.h"
#include "sqlite/database.h"

namespace benchwarden::book {
namespace {

using base::ErrorCode;
using testing::drain;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr std::int64_t kHourMs = 3'600'000;

class Staged : public testing::BookTest {
 protected:
  void SetUp() override { open(); }
  /// Whether they were there already.
  bool stage_again(const std::string& bytes) {
    auto staged = book_->stage_attachment(bytes);
    EXPECT_TRUE(staged.ok()) << staged.error().detail;
    return staged.ok() && *staged;
  }
  void stage(const std::string& bytes) { EXPECT_FALSE(stage_again(bytes)) << bytes.substr(0, 20); }
  [[nodiscard]] bool known(const std::string& bytes) const {
    return *book_->knows_attachment(base::sha256(bytes));
  }
  static Draft naming(std::uint64_t number, const std::vector<std::string>& attachments) {
    Draft draft = drain(number);
    for (const std::string& bytes : attachments) {
      draft.content.attachments.push_back(base::to_hex(base::sha256(bytes)));
    }
    return draft;
  }
  void pass(std::int64_t ms) { clock_.set({clock_.now().ms + ms}); }
  sqlite::Database staged_file() {
    auto database =
        sqlite::Database::open((folder() / "staged.db").string(), sqlite::Mode::kReadWriteCreate);
    EXPECT_TRUE(database.ok()) << database.error().detail;
    return *std::move(database);
  }
  std::int64_t waiting() {
    sqlite::Database database = staged_file();
    auto query = database.prepare("SELECT count(*) FROM staged");
    EXPECT_TRUE(*query->step());
    return query->integer(0);
  }
};

TEST_F(Staged, AreKnownAndNotYetInTheBook) {
  EXPECT_FALSE(known("photo"));
  stage("photo");
  EXPECT_TRUE(known("photo"));
  EXPECT_EQ(book_->attachment(base::sha256("photo")).error().code, ErrorCode::kNotFound);
  EXPECT_TRUE(stage_again("photo")) << "the same bytes again";
  close();
  open();
  EXPECT_TRUE(known("photo")) << "durable";
}

TEST_F(Staged, GoIntoTheBookWithTheEntryThatNamesThem) {
  stage("photo");
  stage("note");
  ASSERT_TRUE(book_->append(naming(1, {"photo", "note"})).ok());
  EXPECT_EQ(*book_->attachment(base::sha256("photo")), "photo");
  EXPECT_EQ(*book_->attachment(base::sha256("note")), "note");
  EXPECT_EQ(waiting(), 0);
  EXPECT_TRUE(stage_again("photo")) << "it is in the book";
  EXPECT_EQ(waiting(), 0);
  EXPECT_TRUE(book_->append(naming(2, {"photo"})).ok()) << "a second entry names it";
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Staged, AnEntryThatIsNotRecordedTakesNothingAlong) {
  stage("photo");
  ASSERT_TRUE(book_->append(drain(1)).ok());
  Draft conflicting = naming(1, {"photo"});
  EXPECT_EQ(book_->append(conflicting).error().code, ErrorCode::kConflict);
  EXPECT_EQ(book_->append(naming(2, {"photo", "never sent"})).error().code, ErrorCode::kInvalid);
  EXPECT_EQ(book_->attachment(base::sha256("photo")).error().code, ErrorCode::kNotFound);
  EXPECT_TRUE(known("photo"));
}

TEST_F(Staged, BytesThatWereDamagedMeanwhileAreNotTakenOver) {
  stage("photo");
  ASSERT_TRUE(staged_file().execute("UPDATE staged SET bytes = CAST('other' AS BLOB)").ok());
  EXPECT_EQ(book_->append(naming(1, {"photo"})).error().code, ErrorCode::kDamaged);
  EXPECT_EQ(book_->head().size, 0U);
  EXPECT_TRUE(book_->append(drain(2)).ok()) << "others are recorded";
  EXPECT_TRUE(stage_again("photo"));
  EXPECT_TRUE(book_->append(naming(1, {"photo"})).ok()) << "sent in again, it is whole again";
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Staged, AreDroppedAfterADay) {
  stage("old");
  pass(24 * kHourMs);
  stage("new");
  EXPECT_TRUE(known("old"));
  pass(1);
  stage("newest");
  EXPECT_FALSE(known("old"));
  EXPECT_TRUE(known("new"));
  pass(25 * kHourMs);
  close();
  open();
  EXPECT_FALSE(known("new")) << "also at the start";
}

TEST_F(Staged, SentInAgainWaitsADayFromThen) {
  stage("photo");
  pass(23 * kHourMs);
  EXPECT_TRUE(stage_again("photo"));
  pass(23 * kHourMs);
  stage("other");
  EXPECT_TRUE(known("photo"));
}

TEST_F(Staged, AClockSetFarBackKeepsNothingForEver) {
  stage("photo");
  pass(-25 * kHourMs);
  stage("other");
  EXPECT_FALSE(known("photo"));
}

TEST_F(Staged, NoMoreThanTwentyWait) {
  for (int i = 0; i < 20; ++i) stage(std::to_string(i));
  auto refused = book_->stage_attachment("one more");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::kUnavailable);
  EXPECT_THAT(refused.error().detail, HasSubstr("20 attachments"));
  EXPECT_TRUE(stage_again("7")) << "one that waits already";
  ASSERT_TRUE(book_->append(naming(1, {"7"})).ok());
  stage("one more");
}

TEST_F(Staged, NoMoreThanFiftyMegabytesWait) {
  const std::string half(25'000'000, 'h');
  stage(half);
  stage(std::string(24'999'999, 'i'));
  EXPECT_EQ(book_->stage_attachment("ab").error().code, ErrorCode::kUnavailable);
  stage("a");
  EXPECT_EQ(book_->stage_attachment("b").error().code, ErrorCode::kUnavailable);
}

TEST_F(Staged, AFileThatCannotBeReadIsThrownAway) {
  stage("photo");
  close();
  for (const char* suffix : {"-wal", "-shm"}) {
    std::filesystem::remove(folder() / (std::string("staged.db") + suffix));
  }
  std::ofstream(folder() / "staged.db", std::ios::trunc) << std::string(5000, 'x');
  open();
  EXPECT_FALSE(known("photo"));
  stage("photo");
}

TEST_F(Staged, ALookTellsLengthAndBeginning) {
  const std::string bytes = "%PDF-1.7 and more than sixteen bytes" + std::string(100'000, 'x');
  EXPECT_EQ(book_->look_at_attachment(base::sha256(bytes)).error().code, ErrorCode::kNotFound);
  ASSERT_TRUE(book_->keep_attachment(bytes).ok());
  auto look = book_->look_at_attachment(base::sha256(bytes));
  ASSERT_TRUE(look.ok()) << look.error().detail;
  EXPECT_EQ(look->bytes, bytes.size());
  EXPECT_EQ(look->beginning, bytes.substr(0, 16));
  ASSERT_TRUE(book_->keep_attachment("").ok());
  EXPECT_EQ(book_->look_at_attachment(base::sha256(std::string_view()))->beginning, "");
}

}  // namespace
}  // namespace benchwarden::book
