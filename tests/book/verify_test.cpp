#include "book/verify.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>
#include <iterator>

#include "book/book_fixture.h"
#include "book/persons.h"

namespace benchwarden::book {
namespace {

using testing::drain;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::tamper;

std::string at(std::uint64_t seq) { return " WHERE seq = " + std::to_string(seq); }

/// While it stands, nobody can write in the folder, nor this process, whoever runs it.
class ReadOnlyFolder {
 public:
  explicit ReadOnlyFolder(std::filesystem::path folder) : folder_(std::move(folder)) {
    for (const auto& file : std::filesystem::directory_iterator(folder_)) {
      std::filesystem::permissions(file, std::filesystem::perms{0444});
    }
    std::filesystem::permissions(folder_, std::filesystem::perms{0555});
    constexpr uid_t kNobody = 65'534;
    EXPECT_EQ(::seteuid(user_ == 0 ? kNobody : user_), 0);
  }
  ReadOnlyFolder(const ReadOnlyFolder&) = delete;
  ReadOnlyFolder& operator=(const ReadOnlyFolder&) = delete;
  ~ReadOnlyFolder() {
    EXPECT_EQ(::seteuid(user_), 0);
    std::filesystem::permissions(folder_, std::filesystem::perms::owner_all);
  }

 private:
  std::filesystem::path folder_;
  uid_t user_ = ::geteuid();
};

/// A closed book of twenty entries, each a group of its own, and one attachment.
class Verify : public testing::BookTest {
 protected:
  static constexpr std::uint64_t kSize = 20;

  void SetUp() override {
    open();
    ASSERT_TRUE(book_->keep_attachment("figures").ok());
    append(1, kSize);
    head_ = book_->head();
    close();
    ASSERT_THAT(verified().faults, IsEmpty());
  }
  /// The first fault after the book was tampered with; it must name the entry.
  VerifyFault first_fault() {
    const VerifyReport report = verified();
    if (report.faults.empty()) {
      ADD_FAILURE() << "nothing was found";
      return {};
    }
    return report.faults.front();
  }
  void expect_only(std::uint64_t seq, const std::string& what) {
    const VerifyReport report = verified();
    ASSERT_EQ(report.faults.size(), 1U);
    EXPECT_EQ(report.faults[0].seq, seq);
    EXPECT_THAT(report.faults[0].what, HasSubstr(what));
  }
  TreeHead head_;
};

TEST_F(Verify, RecomputesTheHeadFromTheLeaves) { EXPECT_EQ(verified().head, head_); }

TEST_F(Verify, LeavesTheBookAsItIs) {
  const auto bytes = [&] {
    std::ifstream file(folder() / "book.db", std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  };
  const std::string before = bytes();
  verified();
  EXPECT_EQ(bytes(), before);
}

TEST_F(Verify, ThereMustBeABook) {
  const testing::TemporaryFolder empty;
  EXPECT_EQ(verify(empty.path(), vocabulary_).error().code, base::ErrorCode::kNotFound);
}

TEST_F(Verify, ReadsAFolderInWhichNobodyCanWrite) {
  const ReadOnlyFolder sealed(folder());
  const auto report = verify(folder(), vocabulary_);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_EQ(report->head, head_);
  EXPECT_THAT(report->faults, IsEmpty());
}

TEST_F(Verify, FindsATamperedEntryInAFolderInWhichNobodyCanWrite) {
  tamper(folder(), "UPDATE entry SET kind = 'briefing'" + at(4));
  const ReadOnlyFolder sealed(folder());
  EXPECT_EQ(first_fault().seq, 4U);
}

TEST_F(Verify, WillNotPassOverALogInAFolderInWhichNobodyCanWrite) {
  const std::filesystem::path log = folder() / "book.db-wal";
  open();
  append(kSize + 1, kSize + 1);
  std::filesystem::copy_file(log, folder() / "kept");
  close();
  std::filesystem::rename(folder() / "kept", log);
  const ReadOnlyFolder sealed(folder());
  const auto report = verify(folder(), vocabulary_);
  ASSERT_FALSE(report.ok());
  EXPECT_EQ(report.error().code, base::ErrorCode::kUnavailable);
  EXPECT_THAT(report.error().detail, HasSubstr("write-ahead log"));
}

TEST_F(Verify, TheBookNamesThePersonsWhoSigned) {
  open();
  for (const char* person : {"p9", "p12", "p9"}) {
    Draft draft = drain(book_->head().size + 1);
    draft.signature.person = person;
    ASSERT_TRUE(book_->append(draft).ok());
  }
  const auto beside = persons_in(folder());
  ASSERT_TRUE(beside.ok()) << beside.error().detail;
  EXPECT_THAT(*beside, ElementsAre("p1", "p12", "p9"));
  close();
  tamper(folder(), "UPDATE entry SET leaf = x'7b7b'" + at(2));
  EXPECT_THAT(*persons_in(folder()), ElementsAre("p1", "p12", "p9"));
  const testing::TemporaryFolder empty;
  EXPECT_THAT(*persons_in(empty.path()), IsEmpty());
}

TEST_F(Verify, NamesEveryEntryOfWhichOneByteChanged) {
  for (std::uint64_t seq = 1; seq <= kSize; ++seq) {
    // Another volume: the leaf still reads well, only its hash gives it away.
    tamper(folder(),
           "UPDATE entry SET leaf = CAST(replace(leaf, '\"volume_ml\":', "
           "'\"volume_ml\":7') AS BLOB)" +
               at(seq));
    const VerifyFault fault = first_fault();
    EXPECT_EQ(fault.seq, seq);
    EXPECT_THAT(fault.what, HasSubstr("does not match its leaf hash"));
    tamper(folder(),
           "UPDATE entry SET leaf = CAST(replace(leaf, '\"volume_ml\":7', "
           "'\"volume_ml\":') AS BLOB)" +
               at(seq));
  }
  EXPECT_THAT(verified().faults, IsEmpty()) << "all put back";
}

TEST_F(Verify, NamesAnEntryWhoseBytesChangedInTheFile) {
  std::string bytes;
  {
    std::ifstream file(folder() / "book.db", std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  const std::size_t found = bytes.find("\"seq\":13}");
  ASSERT_NE(found, std::string::npos);
  const std::size_t device = bytes.rfind("tablet-1", found);
  ASSERT_NE(device, std::string::npos);
  bytes[device] = 'T';
  std::ofstream(folder() / "book.db", std::ios::binary | std::ios::trunc) << bytes;
  expect_only(13, "does not match its leaf hash");
}

TEST_F(Verify, NamesAChangedLeafHash) {
  tamper(folder(), "UPDATE entry SET leaf_hash = zeroblob(32)" + at(9));
  expect_only(9, "does not match its leaf hash");
}

TEST_F(Verify, NamesALeafChangedTogetherWithItsHash) {
  tamper(folder(),
         "UPDATE entry SET (leaf, leaf_hash, id) = (SELECT leaf, leaf_hash, "
         "x'000102030405060708090a0b0c0d0e0f' FROM entry WHERE seq = 3)" +
             at(11));
  EXPECT_EQ(first_fault().seq, 3U) << "it says it is number 3";
  EXPECT_EQ(verified().faults[1].seq, 11U);
}

TEST_F(Verify, NamesADeletedEntry) {
  tamper(folder(), "DELETE FROM mention WHERE seq = 6; DELETE FROM entry WHERE seq = 6");
  expect_only(6, "entry 6 missing");
}

TEST_F(Verify, NamesADeletedEntryWhoseMentionsWereLeft) {
  tamper(folder(), "DELETE FROM entry WHERE seq BETWEEN 6 AND 8");
  const VerifyReport report = verified();
  EXPECT_EQ(report.faults[0].seq, 6U);
  ASSERT_EQ(report.faults.size(), 4U);
  EXPECT_THAT(report.faults[3].what, HasSubstr("an entry that is not there"));
}

TEST_F(Verify, NamesADeletedEntryBehindWhichTheOthersMovedUp) {
  tamper(folder(),
         "DELETE FROM mention WHERE seq = 6; DELETE FROM entry WHERE seq = 6;"
         "UPDATE mention SET seq = seq - 1 WHERE seq > 6;"
         "UPDATE entry SET seq = seq - 1 WHERE seq > 6");
  EXPECT_EQ(first_fault().seq, 6U);
}

TEST_F(Verify, NamesAnInsertedEntry) {
  tamper(folder(),
         "UPDATE mention SET seq = seq + 1000 WHERE seq >= 6;"
         "UPDATE mention SET seq = seq - 999 WHERE seq >= 1000;"
         "UPDATE entry SET seq = seq + 1000 WHERE seq >= 6;"
         "UPDATE entry SET seq = seq - 999 WHERE seq >= 1000;"
         "INSERT INTO mention VALUES ('container/w1', 6);"
         "INSERT INTO entry SELECT 6, x'000102030405060708090a0b0c0d0e0f', kind, occurred_at_ms, "
         "corrects, subjects_hash, leaf_hash, interior, root, leaf FROM entry WHERE seq = 5");
  const VerifyReport report = verified();
  ASSERT_FALSE(report.faults.empty());
  EXPECT_EQ(report.faults.front().seq, 5U) << "entry 6 claims to be number 5";
  EXPECT_EQ(report.faults[1].seq, 6U);
}

TEST_F(Verify, NamesAnInsertedEntryThatLooksLikeTheRealOne) {
  // The best forgery without rewriting all that follows: an entry that was honestly recorded as
  // number 6 after the first five, in a copy of the book.
  const testing::TemporaryFolder other;
  {
    auto forged = Book::open(other.path(), vocabulary_, clock_);
    ASSERT_TRUE(forged.ok());
    for (const std::uint64_t number : {1U, 2U, 3U, 4U, 5U, 99U}) {
      ASSERT_TRUE((*forged)->append(drain(number)).ok());
    }
  }
  tamper(folder(),
         "UPDATE mention SET seq = seq + 1000 WHERE seq >= 6;"
         "UPDATE mention SET seq = seq - 999 WHERE seq >= 1000;"
         "UPDATE entry SET seq = seq + 1000 WHERE seq >= 6;"
         "UPDATE entry SET seq = seq - 999 WHERE seq >= 1000;"
         "INSERT INTO mention VALUES ('container/w1', 6);"
         "ATTACH '" +
             (other.path() / "book.db").string() +
             "' AS other;"
             "INSERT INTO entry SELECT * FROM other.entry WHERE seq = 6; DETACH other");
  const VerifyFault fault = first_fault();
  EXPECT_EQ(fault.seq, 6U) << fault.what;
}

TEST_F(Verify, NamesTheFirstOfTheLastFiveCutOff) {
  tamper(folder(), "DELETE FROM entry WHERE seq > 15; DELETE FROM mention WHERE seq > 15");
  expect_only(16, "entries 16 to 20 cut off the end");
}

TEST_F(Verify, NamesTheFirstOfAWholeBookCutOff) {
  tamper(folder(), "DELETE FROM entry; DELETE FROM mention");
  expect_only(1, "entries 1 to 20 cut off the end");
}

TEST_F(Verify, NamesAChangedHashOfTheTree) {
  tamper(folder(), "UPDATE entry SET interior = zeroblob(length(interior))" + at(16));
  expect_only(16, "hashes of the tree");
  tamper(folder(), "UPDATE entry SET interior = x''" + at(16));
  expect_only(16, "hashes of the tree");
}

TEST_F(Verify, NamesAChangedRoot) {
  tamper(folder(), "UPDATE entry SET root = zeroblob(32)" + at(7));
  expect_only(7, "the root stored with it does not match");
}

TEST_F(Verify, NamesAMissingLastRoot) {
  tamper(folder(), "UPDATE entry SET root = NULL" + at(kSize));
  expect_only(kSize + 1, "the group of entry 20 went on after it");
}

TEST_F(Verify, FindsABookReplacedByAnother) {
  std::filesystem::rename(folder() / "head.txt", folder() / "kept");
  std::filesystem::remove(folder() / "book.db");
  open();
  append(101, 125);
  close();
  std::filesystem::rename(folder() / "kept", folder() / "head.txt");
  const VerifyReport report = verified();
  ASSERT_EQ(report.faults.size(), 1U);
  EXPECT_THAT(report.faults[0].what, HasSubstr("first 20 entries"));
}

TEST_F(Verify, FindsAMissingOrUnreadableLastHeadFile) {
  std::filesystem::remove(folder() / "head.txt");
  EXPECT_THAT(first_fault().what, HasSubstr("missing"));
  std::ofstream(folder() / "head.txt") << "head 5";
  EXPECT_THAT(first_fault().what, HasSubstr("cannot be read"));
}

TEST_F(Verify, NamesAnEntryWhoseIndexColumnsChanged) {
  const char* const changes[] = {"kind = 'briefing'", "occurred_at_ms = occurred_at_ms + 1",
                                 "corrects = zeroblob(16)",
                                 "id = x'000102030405060708090a0b0c0d0e0f'"};
  std::uint64_t seq = 3;
  for (const char* change : changes) {
    tamper(folder(), std::string("UPDATE entry SET ") + change + at(++seq));
    EXPECT_EQ(verified().faults.back().seq, seq) << change;
    EXPECT_EQ(verified().faults.size(), seq - 3) << change;
  }
}

TEST_F(Verify, NamesAnEntryWhoseMentionsChanged) {
  tamper(folder(), "UPDATE mention SET subject = 'container/w2'" + at(4));
  expect_only(4, "subject index");
  tamper(folder(), "UPDATE mention SET subject = 'container/w1'" + at(4));
  tamper(folder(), "DELETE FROM mention" + at(5));
  expect_only(5, "subject index");
  tamper(folder(), "INSERT INTO mention VALUES ('container/w1', 5), ('container/w0', 8)");
  expect_only(8, "subject index");
}

TEST_F(Verify, HoldsTheMentionsToWhatTheEntrySaysItself) {
  std::uint64_t asked = 0;
  Meaning meaning;
  meaning.subjects_of = [&](const entries::Entry& entry, const EntrySource& book) {
    EXPECT_EQ(entry.seq, ++asked);
    EXPECT_EQ(book.entry(testing::id_of(entry.seq))->seq, entry.seq);
    return std::vector<std::string>{entry.seq == 12 ? "container/w9" : "container/w1"};
  };
  const auto report = verify(folder(), vocabulary_, meaning);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(asked, kSize);
  ASSERT_EQ(report->faults.size(), 1U);
  EXPECT_EQ(report->faults[0].seq, 12U);
}

TEST_F(Verify, TakesAnErrorOfTheMeaningAsAFaultOfItsEntryAndOneOfTheDiskAsItsOwn) {
  base::ErrorCode code = base::ErrorCode::kDamaged;
  Meaning meaning;
  meaning.follow = [&](const entries::Entry& entry, const EntrySource&) -> base::Status<> {
    if (entry.seq == 7) return base::Error{code, "cannot be folded"};
    return base::Done{};
  };
  const auto report = verify(folder(), vocabulary_, meaning);
  ASSERT_TRUE(report.ok());
  ASSERT_EQ(report->faults.size(), 1U);
  EXPECT_EQ(report->faults[0].seq, 7U);
  EXPECT_EQ(report->faults[0].what, "cannot be folded");
  code = base::ErrorCode::kUnavailable;
  EXPECT_EQ(verify(folder(), vocabulary_, meaning).error().code, base::ErrorCode::kUnavailable);
}

TEST_F(Verify, FindsAnAttachmentThatDoesNotMatch) {
  tamper(folder(), "UPDATE attachment SET bytes = CAST('Figures' AS BLOB)");
  const VerifyFault fault = first_fault();
  EXPECT_FALSE(fault.seq.has_value());
  EXPECT_THAT(fault.what, HasSubstr(base::to_hex(base::sha256("figures"))));
}

TEST_F(Verify, NamesTheEntryOfAMissingAttachment) {
  open();
  Draft draft = drain(kSize + 1);
  draft.content.attachments = {base::to_hex(base::sha256("figures"))};
  ASSERT_TRUE(book_->append(draft).ok());
  close();
  tamper(folder(), "DELETE FROM attachment");
  expect_only(kSize + 1, "missing");
}

TEST_F(Verify, FindsAMissingTrigger) {
  ASSERT_TRUE(testing::run_sql(folder(), "DROP TRIGGER entry_no_update"));
  EXPECT_THAT(first_fault().what, HasSubstr("triggers of the book were changed"));
}

TEST_F(Verify, FindsAFileDamagedInItsPages) {
  const auto path = folder() / "book.db";
  const auto size = std::filesystem::file_size(path);
  std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
  file.seekp(static_cast<std::streamoff>(size - 4096));
  file << std::string(4096, '\xA5');
  file.close();
  auto report = verify(folder(), vocabulary_);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_FALSE(report->faults.empty());
}

TEST_F(Verify, BoundsWhatItLists) {
  open();
  append(kSize + 1, kSize + 200);
  close();
  tamper(folder(), "UPDATE entry SET kind = 'other'");
  const VerifyReport report = verified();
  EXPECT_EQ(report.faults.size(), 101U);
  EXPECT_EQ(report.faults.front().seq, 1U);
  EXPECT_THAT(report.faults.back().what, HasSubstr("120 more"));
}

}  // namespace
}  // namespace benchwarden::book
