#include <gtest/gtest.h>

#include <fstream>

#include "book/book_fixture.h"
#include "sqlite/database.h"

namespace benchwarden::book {
namespace {

class Snapshots : public testing::BookTest {
 protected:
  void SetUp() override {
    open();
    append(1, 3);
  }
  void change(const std::string& sql) {
    auto database =
        sqlite::Database::open((folder() / "derived.db").string(), sqlite::Mode::kReadWriteCreate);
    ASSERT_TRUE(database.ok());
    ASSERT_TRUE(database->execute(sql).ok());
  }
};

TEST_F(Snapshots, TheNewestIsKeptOverAReopening) {
  EXPECT_FALSE(book_->snapshot().has_value());
  ASSERT_TRUE(book_->keep_snapshot({1, {2, *book_->root_at(2)}, "older"}).ok());
  const std::string bytes("state\0of all", 12);
  ASSERT_TRUE(book_->keep_snapshot({4, book_->head(), bytes}).ok());
  const TreeHead head = book_->head();
  close();
  open();
  const auto snapshot = book_->snapshot();
  ASSERT_TRUE(snapshot.has_value());
  EXPECT_EQ(snapshot->fold_version, 4);
  EXPECT_EQ(snapshot->head, head);
  EXPECT_EQ(snapshot->bytes, bytes);
}

TEST_F(Snapshots, OneThatDoesNotMatchItsHashIsNone) {
  ASSERT_TRUE(book_->keep_snapshot({1, book_->head(), "state"}).ok());
  change("UPDATE snapshot SET bytes = CAST('stale' AS BLOB)");
  EXPECT_FALSE(book_->snapshot().has_value());
}

TEST_F(Snapshots, AFileThatCannotBeReadIsThrownAway) {
  ASSERT_TRUE(book_->keep_snapshot({1, book_->head(), "state"}).ok());
  close();
  std::ofstream(folder() / "derived.db", std::ios::trunc) << std::string(5000, 'x');
  open();
  EXPECT_FALSE(book_->snapshot().has_value());
  EXPECT_TRUE(book_->keep_snapshot({1, book_->head(), "state"}).ok());
  EXPECT_TRUE(book_->snapshot().has_value());
  EXPECT_EQ(book_->head().size, 3U);
}

// Neither shows at the opening: the first pages are whole.
class DamagedSnapshots : public Snapshots {
 protected:
  void damage_from(std::size_t place) {
    ASSERT_TRUE(book_->keep_snapshot({1, book_->head(), std::string(100'000, 's')}).ok());
    close();
    std::fstream file(folder() / "derived.db", std::ios::in | std::ios::out);
    file.seekp(static_cast<std::streamoff>(place));
    file << std::string(40'000, 'x');
    ASSERT_TRUE(file.flush());
    file.close();
    open();
  }
  void expect_kept_anew() {
    ASSERT_TRUE(book_->keep_snapshot({1, book_->head(), "newer"}).ok());
    close();
    open();
    const auto snapshot = book_->snapshot();
    ASSERT_TRUE(snapshot.has_value());
    EXPECT_EQ(snapshot->bytes, "newer");
  }
};

TEST_F(DamagedSnapshots, AreNoneWhenReadAndKeptInAFileMadeAnew) {
  damage_from(30'000);
  EXPECT_FALSE(book_->snapshot().has_value());
  expect_kept_anew();
}

TEST_F(DamagedSnapshots, NobodyAskedForAreReplacedInAFileMadeAnew) {
  damage_from(30'000);
  expect_kept_anew();
}

}  // namespace
}  // namespace benchwarden::book
