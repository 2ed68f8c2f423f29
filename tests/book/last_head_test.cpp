#include "book/last_head.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "book/accept_end.h"
#include "book/book_fixture.h"

namespace benchwarden::book {
namespace {

TreeHead head_of(std::uint64_t size) { return {size, base::sha256(std::to_string(size))}; }

class LastHead : public ::testing::Test {
 protected:
  [[nodiscard]] std::string bytes() const {
    std::ifstream file(path(), std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  }
  void put(const std::string& bytes) const {
    std::ofstream(path(), std::ios::binary | std::ios::trunc) << bytes;
  }
  [[nodiscard]] std::filesystem::path path() const { return folder_.path() / "head.txt"; }
  [[nodiscard]] std::uint64_t size_read() const {
    auto head = LastHeadFile::read(folder_.path());
    EXPECT_TRUE(head.ok());
    EXPECT_TRUE(head->has_value());
    EXPECT_EQ(**head, head_of((*head)->size));
    return (*head)->size;
  }
  testing::TemporaryFolder folder_;
};

TEST_F(LastHead, IsNoneWhereThereIsNoFile) {
  auto head = LastHeadFile::read(folder_.path());
  ASSERT_TRUE(head.ok());
  EXPECT_FALSE(head->has_value());
}

TEST_F(LastHead, IsTheOneWrittenLast) {
  ASSERT_TRUE(LastHeadFile::create(folder_.path(), head_of(3)).ok());
  EXPECT_EQ(size_read(), 3U);
  for (std::uint64_t session = 0; session < 2; ++session) {
    auto file = LastHeadFile::open(folder_.path());
    ASSERT_TRUE(file.ok());
    for (std::uint64_t size = 4 + 10 * session; size < 9 + 10 * session; ++size) {
      ASSERT_TRUE(file->write(head_of(size)).ok());
      EXPECT_EQ(size_read(), size);
    }
  }
}

TEST_F(LastHead, StandsAsTextOnePerSector) {
  ASSERT_TRUE(LastHeadFile::create(folder_.path(), {0, base::sha256(std::string_view())}).ok());
  const std::string text = bytes();
  ASSERT_EQ(text.size(), 1024U);
  EXPECT_EQ(text.substr(0, 91),
            "head 00000000000000000000 "
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855 ");
  EXPECT_EQ(text[511], '\n');
  EXPECT_EQ(text.substr(0, 512), text.substr(512));
}

TEST_F(LastHead, ATornRecordLeavesTheOneBefore) {
  ASSERT_TRUE(LastHeadFile::create(folder_.path(), head_of(7)).ok());
  auto file = LastHeadFile::open(folder_.path());
  ASSERT_TRUE(file->write(head_of(8)).ok());
  ASSERT_TRUE(file->write(head_of(9)).ok());
  std::string text = bytes();
  const std::size_t newest = text.find("head 00000000000000000009");
  ASSERT_NE(newest, std::string::npos);
  text.replace(newest + 40, 200, 200, '\0');
  put(text);
  EXPECT_EQ(size_read(), 8U);
  auto reopened = LastHeadFile::open(folder_.path());
  ASSERT_TRUE(reopened->write(head_of(10)).ok());
  EXPECT_EQ(size_read(), 10U);
}

TEST_F(LastHead, EveryChangedByteOfARecordShows) {
  ASSERT_TRUE(LastHeadFile::create(folder_.path(), head_of(7)).ok());
  const std::string whole = bytes();
  for (std::size_t i = 0; i < 512; ++i) {
    std::string changed = whole;
    changed[i] = static_cast<char>(changed[i] ^ 0x01);
    changed[512 + i] = changed[i];
    put(changed);
    auto head = LastHeadFile::read(folder_.path());
    ASSERT_FALSE(head.ok()) << "byte " << i;
    EXPECT_EQ(head.error().code, base::ErrorCode::kDamaged);
  }
}

TEST_F(LastHead, AFileOfAnotherLengthIsDamaged) {
  for (const std::size_t length : {0U, 1U, 512U, 1023U, 1025U}) {
    put(std::string(length, ' '));
    EXPECT_FALSE(LastHeadFile::read(folder_.path()).ok()) << length;
    EXPECT_FALSE(LastHeadFile::open(folder_.path()).ok()) << length;
  }
}

class LastHeadOfABook : public testing::BookTest {
 protected:
  void SetUp() override {
    open();
    append(1, 12);
  }
  /// Accepts the end with drain number 77 as the entry that says so, and keeps what it was told.
  base::Status<> accept(OddEnd* told) {
    return accept_end(folder(), vocabulary_, clock_, [told](const OddEnd& end) {
      *told = end;
      return testing::drain(77);
    });
  }
  void cut_last_five() {
    close();
    testing::tamper(folder(), "DELETE FROM entry WHERE seq > 7; DELETE FROM mention WHERE seq > 7");
  }
};

TEST_F(LastHeadOfABook, FollowsEveryCommit) {
  EXPECT_EQ(**LastHeadFile::read(folder()), book_->head());
  append(13, 13);
  EXPECT_EQ(**LastHeadFile::read(folder()), book_->head());
}

TEST_F(LastHeadOfABook, ABookCutShortRefusesToOpen) {
  cut_last_five();
  const auto opened = try_open();
  ASSERT_FALSE(opened.ok());
  EXPECT_EQ(opened.error().code, base::ErrorCode::kDamaged);
  EXPECT_NE(opened.error().detail.find("entry 12 had been recorded"), std::string::npos)
      << opened.error().detail;
}

TEST_F(LastHeadOfABook, ABookCutShortOpensOnceItsEndIsAccepted) {
  const TreeHead before = book_->head();
  cut_last_five();
  OddEnd end;
  ASSERT_TRUE(accept(&end).ok());
  EXPECT_EQ(end.found.size, 7U);
  EXPECT_EQ(end.expected, before);
  EXPECT_FALSE(end.file_missing);
  open();
  EXPECT_EQ(book_->head().size, 8U) << "the acceptance is an entry of the book";
  EXPECT_EQ(testing::number_of(*book_->entry(8)), 77U);
  append(20, 20);
  EXPECT_TRUE(verified().faults.empty());
}

TEST_F(LastHeadOfABook, AnEndThatFitsIsNotAccepted) {
  close();
  OddEnd end;
  EXPECT_EQ(accept(&end).error().code, base::ErrorCode::kConflict);
  open();
  EXPECT_EQ(book_->head().size, 12U);
}

TEST_F(LastHeadOfABook, TheEndIsNotAcceptedWhileTheBookIsOpen) {
  OddEnd end;
  EXPECT_EQ(accept(&end).error().code, base::ErrorCode::kUnavailable);
}

TEST_F(LastHeadOfABook, AnotherBookRefusesToOpen) {
  close();
  ASSERT_TRUE(LastHeadFile::create(folder(), head_of(12)).ok());
  EXPECT_EQ(try_open().error().code, base::ErrorCode::kDamaged);
}

TEST_F(LastHeadOfABook, AMissingFileRefusesToOpenABookWithEntries) {
  close();
  ASSERT_TRUE(std::filesystem::remove(folder() / "head.txt"));
  EXPECT_EQ(try_open().error().code, base::ErrorCode::kDamaged);
  OddEnd end;
  ASSERT_TRUE(accept(&end).ok());
  EXPECT_TRUE(end.file_missing);
  open();
  EXPECT_EQ(book_->head().size, 13U);
}

TEST_F(LastHeadOfABook, AnUnreadableFileIsAcceptedAsThat) {
  close();
  std::ofstream(folder() / "head.txt") << "head 5";
  OddEnd end;
  ASSERT_TRUE(accept(&end).ok());
  EXPECT_FALSE(end.file_missing);
  EXPECT_FALSE(end.expected.has_value());
}

TEST_F(LastHeadOfABook, AnOlderRecordIsNoFault) {
  const TreeHead older{5, *book_->root_at(5)};
  close();
  ASSERT_TRUE(LastHeadFile::create(folder(), older).ok());
  EXPECT_TRUE(verified().faults.empty());
  open();
  EXPECT_EQ(**LastHeadFile::read(folder()), book_->head()) << "brought up to date at opening";
}

}  // namespace
}  // namespace benchwarden::book
