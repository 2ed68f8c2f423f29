#include "workshop/upkeep.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/sha256.h"
#include "workshop/backup_entry.h"
#include "workshop/fold.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;
using ::testing::StartsWith;

Verified verified(const TestWorkshop& workshop) {
  auto report = verify_book(workshop.folder(), real_definitions());
  if (!report) {
    ADD_FAILURE() << report.error().detail;
    return {};
  }
  return *std::move(report);
}

/// The state without its drains: a sound snapshot of the same size, of another past.
std::string bytes_without_drains(const TestWorkshop& workshop) {
  const Ports& ports = workshop.ports();
  tallies::State state;
  const auto folded = ports.book.each(1, [&](const entries::Entry& entry) -> base::Status<> {
    if (entry.content.kind != "oil-drained") {
      return fold(state, entry, ports.book, ports.definitions.catalog);
    }
    state.apply(tallies::Posting{entry.seq, entry.recorded_at, entry.recorded_at, true, {}});
    return base::Done{};
  });
  EXPECT_TRUE(folded.ok());
  return state.snapshot();
}

TEST(VerifyBook, FindsNothingInABookThatWasOnlyAppendedTo) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const book::TreeHead head = workshop.ports().book.head();
  workshop.close();
  const Verified report = verified(workshop);
  EXPECT_EQ(report.head.size, 12U);
  EXPECT_EQ(report.head, head);
  EXPECT_THAT(report.faults, IsEmpty());
}

/// An entry that no form took, under hashes that fit: as who writes the file by hand would have it.
void write_past_the_forms(const TestWorkshop& workshop, const std::string& kind,
                          const entries::Fields& fields) {
  book::Draft draft;
  draft.content.id = testing::id_of(900'000);
  draft.content.kind = kind;
  draft.content.occurred_at = {at(kNow), 0};
  draft.content.fields = fields;
  draft.signature.person = "p1";
  const auto receipt = workshop.ports().book.append(draft);
  ASSERT_TRUE(receipt.ok()) << receipt.error().detail;
}

TEST(VerifyBook, NamesAnEntryThatNoFormCouldHaveTaken) {
  using entries::Code;
  using entries::Id;
  const std::vector<std::pair<std::string, entries::Fields>> entries{
      {"oil-drained", {}},
      {"transfer", {{"from_container", Id{"w1"}}}},
      {"register-change", {{"thing", Id{"w9"}}, {"thing_class", Code{"container"}}}},
      {"register-change", {{"act", Code{"added"}}, {"thing", Id{"w9"}}}},
      {"collection", {{"collection", Id{"c1"}}, {"stage", Code{"dreamt"}}}},
      {"collection",
       {{"collection", Id{"c1"}},
        {"loads", entries::List{{{{"emptied", Code{"yes"}}}}}},
        {"stage", Code{"taken"}}}},
      {"entries-confirmed", {{"authorship", Code{"mine"}}}},
  };
  for (const auto& [kind, fields] : entries) {
    TestWorkshop workshop;
    write_past_the_forms(workshop, kind, fields);
    EXPECT_FALSE(workshop.ports().live.catch_up().ok());
    workshop.close();
    EXPECT_THAT(verified(workshop).faults,
                Contains(StartsWith("entry 12: an entry of the kind " + kind)));
    const FewNames names;
    EXPECT_FALSE(OpenBook::open(workshop.folder(), real_definitions(), workshop.clock, names).ok());
  }
}

TEST(VerifyBook, HoldsWhatAnEntryNamesToTheBookAsItWasThen) {
  TestWorkshop workshop;
  const Ports& ports = workshop.ports();
  Backup made;
  made.manifest.head = ports.book.head();
  ASSERT_TRUE(record_backup(ports, made));
  EXPECT_THAT(verified(workshop).faults, IsEmpty());
  made.manifest.head.size = 5;
  ASSERT_TRUE(record_backup(ports, made));
  made.manifest.head.size = 500;
  ASSERT_TRUE(record_backup(ports, made));
  EXPECT_THAT(verified(workshop).faults,
              ElementsAre("entry 13: it names other first 5 entries than this book has",
                          "entry 14: it names a book of 500 entries, and was one of them"));
}

TEST(VerifyBook, NamesTheEntryInWhichOneByteChanged) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  workshop.enter(drain("w1", "30"));
  workshop.close();
  testing::tamper(workshop.folder(),
                  "UPDATE entry SET leaf = CAST(replace(leaf, '\"volume_ml\":620', "
                  "'\"volume_ml\":120') AS BLOB) WHERE seq = 12");
  const Verified report = verified(workshop);
  ASSERT_FALSE(report.faults.empty());
  EXPECT_THAT(report.faults.front(),
              AllOf(StartsWith("entry 12: "), HasSubstr("does not match its leaf hash")));
}

TEST(VerifyBook, NamesAChangedEntryOnceAndNothingThatFollowsFromIt) {
  for (const char* change :
       {R"('"container":"w1"', '"container":"w2"')",
        R"('2026-11-20T12:00:00Z', '2026-11-21T12:00:00Z')", R"('"seq":12', '"seq":12 ')"}) {
    SCOPED_TRACE(change);
    TestWorkshop workshop;
    const std::string slip = workshop.enter(drain("w1", "620"));
    workshop.enter(drain("w1", "30"));
    workshop.enter(correct(slip, R"({"volume_ml":62})"));
    ASSERT_TRUE(workshop.ports().live.keep().ok());
    workshop.close();
    testing::tamper(workshop.folder(), "UPDATE entry SET leaf = CAST(replace(leaf, " +
                                           std::string(change) + ") AS BLOB) WHERE seq = 12");
    EXPECT_THAT(verified(workshop).faults,
                ElementsAre("entry 12: its leaf does not match its leaf hash"));
  }
}

TEST(VerifyBook, NamesADeletedEntryOnce) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  workshop.enter(drain("w1", "30"));
  workshop.close();
  testing::tamper(workshop.folder(),
                  "DELETE FROM mention WHERE seq = 12; DELETE FROM entry WHERE seq = 12");
  EXPECT_THAT(verified(workshop).faults, ElementsAre("entry 12: entry 12 missing"));
}

/// Takes a row out of the subject index and puts the hash of the rest into its entry.
void forget_subject(const TestWorkshop& workshop, std::uint64_t seq, const std::string& subject,
                    const std::string& rest) {
  const std::string at = " WHERE seq = " + std::to_string(seq);
  testing::tamper(workshop.folder(), "DELETE FROM mention" + at + " AND subject = '" + subject +
                                         "'; UPDATE entry SET subjects_hash = x'" +
                                         base::to_hex(base::sha256(rest)) + "'" + at);
}

TEST(VerifyBook, NamesAnEntryThatWasHiddenFromTheIndexOfAThing) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  workshop.close();
  forget_subject(workshop, 12, "container/w1", "");
  EXPECT_THAT(verified(workshop).faults,
              ElementsAre(AllOf(StartsWith("entry 12: "), HasSubstr("subject index"))));
}

TEST(VerifyBook, HoldsACorrectionToWhatItsTargetWasAndBecomes) {
  TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  workshop.enter(correct(slip, R"({"container":"w2"})"));
  workshop.enter(correct(slip, R"({"volume_ml":62})"));
  workshop.close();
  EXPECT_THAT(verified(workshop).faults, IsEmpty());
  forget_subject(workshop, 13, "container/w1", "container/w2\n");
  EXPECT_THAT(verified(workshop).faults,
              ElementsAre(AllOf(StartsWith("entry 13: "), HasSubstr("subject index"))));
  forget_subject(workshop, 14, "container/w2", "container/w1\n");
  EXPECT_THAT(verified(workshop).faults,
              ElementsAre(StartsWith("entry 13: "), StartsWith("entry 14: ")));
}

TEST(VerifyBook, FindsStoredTalliesThatAreNotThoseOfTheBook) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const Ports& ports = workshop.ports();
  const book::TreeHead head = ports.book.head();
  const auto faults_with = [&](const book::Book::Snapshot& snapshot) {
    EXPECT_TRUE(ports.book.keep_snapshot(snapshot).ok());
    return verified(workshop).faults;
  };
  const std::string good = ports.live.view()->snapshot();
  const std::string bad = bytes_without_drains(workshop);
  EXPECT_THAT(faults_with({tallies::kFoldVersion, head, good}), IsEmpty());
  EXPECT_THAT(faults_with({tallies::kFoldVersion, head, bad}),
              ElementsAre(AllOf(HasSubstr("derived.db"), Not(HasSubstr("entry ")))));
  // What a start would not use is no fault.
  EXPECT_THAT(faults_with({tallies::kFoldVersion + 1, head, bad}), IsEmpty());
  book::TreeHead other = head;
  other.root[0] ^= 1U;
  EXPECT_THAT(faults_with({tallies::kFoldVersion, other, bad}), IsEmpty());
}

TEST(VerifyBook, HoldsStoredTalliesToTheBookAsItWasThen) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const std::string bad = bytes_without_drains(workshop);
  ASSERT_TRUE(workshop.ports().live.keep().ok());
  const book::TreeHead then = workshop.ports().book.head();
  workshop.enter(drain("w1", "30"));
  EXPECT_THAT(verified(workshop).faults, IsEmpty());
  ASSERT_TRUE(workshop.ports().book.keep_snapshot({tallies::kFoldVersion, then, bad}).ok());
  EXPECT_THAT(verified(workshop).faults, ElementsAre(HasSubstr("derived.db")));
}

TEST(VerifyBook, FindsStoredTalliesOfABookWithoutEntries) {
  TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  const book::TreeHead head = workshop.ports().book.head();
  ASSERT_TRUE(workshop.ports().live.keep().ok());
  EXPECT_THAT(verified(workshop).faults, IsEmpty());
  tallies::State other;
  other.apply(tallies::Posting{1, {}, {}, true, {}});
  ASSERT_TRUE(
      workshop.ports().book.keep_snapshot({tallies::kFoldVersion, head, other.snapshot()}).ok());
  EXPECT_THAT(verified(workshop).faults, ElementsAre(HasSubstr("derived.db")));
}

TEST(VerifyBook, NeedsABook) {
  const testing::TemporaryFolder empty;
  EXPECT_EQ(verify_book(empty.path(), real_definitions()).error().code, base::ErrorCode::kNotFound);
}

TEST(AcceptBookEnd, TakesABookWhoseEndWasCutOffForWhole) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  workshop.enter(drain("w1", "30"));
  workshop.close();
  testing::tamper(workshop.folder(),
                  "DELETE FROM mention WHERE seq = 13; DELETE FROM entry WHERE seq = 13");
  EXPECT_THAT(verified(workshop).faults.front(), StartsWith("entry 13: "));
  const auto accepted = accept_book_end(workshop.folder(), real_definitions(), workshop.clock);
  ASSERT_TRUE(accepted.ok()) << accepted.error().detail;
  const Verified report = verified(workshop);
  EXPECT_THAT(report.faults, IsEmpty());
  EXPECT_THAT(report.notes,
              ElementsAre("note: entry 13: at 2026-11-20T12:00:00Z the book was accepted as it "
                          "ended with 12 entries; head.txt had said 13 entries",
                          "no signed checkpoint lies here"));
  workshop.open();
  EXPECT_EQ(workshop.volume_ml("w1"), "620");
  workshop.enter(drain("w1", "30"));
  EXPECT_THAT(verified(workshop).notes, Contains(StartsWith("note: entry 13: "))) << "for ever";
}

TEST(AcceptBookEnd, TellsOfAMissingRecord) {
  TestWorkshop workshop;
  workshop.close();
  ASSERT_TRUE(std::filesystem::remove(workshop.folder() / "head.txt"));
  ASSERT_TRUE(accept_book_end(workshop.folder(), real_definitions(), workshop.clock).ok());
  EXPECT_THAT(verified(workshop).notes, Contains(HasSubstr("head.txt was missing")));
}

TEST(Rebuild, SaysTheSameOfAnUntouchedBook) {
  TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  workshop.enter(correct(slip, R"({"volume_ml":62})"));
  ASSERT_TRUE(workshop.ports().live.keep().ok());
  workshop.open();
  const auto rebuilt = rebuild(workshop.ports());
  ASSERT_TRUE(rebuilt.ok());
  EXPECT_EQ(rebuilt->entries, 13U);
  EXPECT_TRUE(rebuilt->same);
}

TEST(Rebuild, SaysThatTheTalliesDifferedAndStoresTheRightOnes) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const Ports& ports = workshop.ports();
  ASSERT_TRUE(
      ports.book
          .keep_snapshot({tallies::kFoldVersion, ports.book.head(), bytes_without_drains(workshop)})
          .ok());
  workshop.open();
  ASSERT_EQ(workshop.volume_ml("w1"), "0") << "the altered snapshot is in use";
  const auto rebuilt = rebuild(workshop.ports());
  ASSERT_TRUE(rebuilt.ok());
  EXPECT_EQ(rebuilt->entries, 12U);
  EXPECT_FALSE(rebuilt->same);
  workshop.open();
  EXPECT_EQ(workshop.volume_ml("w1"), "620");
  EXPECT_TRUE(rebuild(workshop.ports())->same);
}

}  // namespace
}  // namespace benchwarden::workshop
