#include "book/book.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book/book_fixture.h"
#include "book/merkle.h"

namespace benchwarden::book {
namespace {

using base::ErrorCode;
using testing::drain;
using ::testing::ElementsAre;
using testing::id_of;
using ::testing::IsEmpty;
using testing::number_of;

class Books : public testing::BookTest {
 protected:
  void SetUp() override { open(); }
  std::vector<std::uint64_t> selected(const Selection& selection) {
    auto entries = book_->select(selection);
    EXPECT_TRUE(entries.ok()) << entries.error().detail;
    std::vector<std::uint64_t> seqs;
    for (const auto& entry : *entries) seqs.push_back(entry.seq);
    return seqs;
  }
};

TEST_F(Books, ANewOneIsEmpty) {
  EXPECT_EQ(book_->head(), (TreeHead{0, base::sha256(std::string_view())}));
  EXPECT_THAT(selected({}), IsEmpty());
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Books, OneIsMadeWhereTheFoldersAboveAreMissing) {
  const auto made = Book::open(folder() / "a/b/", vocabulary_, clock_);
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_TRUE(std::filesystem::exists(folder() / "a/b/book.db"));
  const auto refused = Book::open(folder() / "a/b/book.db/c", vocabulary_, clock_);
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(refused.error().detail,
              ::testing::AllOf(::testing::HasSubstr("data folder: "),
                               ::testing::HasSubstr("/a/b/book.db cannot be made")));
}

TEST_F(Books, AnEntryIsReadBackAsItWasRecorded) {
  clock_.set({1'795'000'123'456});
  Draft draft = drain(7);
  draft.content.reason = "checked twice";
  auto receipt = book_->append(draft);
  ASSERT_TRUE(receipt.ok());
  EXPECT_EQ(receipt->seq, 1U);
  EXPECT_EQ(receipt->recorded_at.ms, 1'795'000'123'456);
  EXPECT_FALSE(receipt->already_there);
  auto entry = book_->entry(1);
  ASSERT_TRUE(entry.ok());
  EXPECT_EQ(entry->content.id, id_of(7));
  EXPECT_EQ(entry->content.reason, "checked twice");
  EXPECT_EQ(entry->signature.device, "tablet-1");
  EXPECT_EQ(number_of(*entry), 7U);
  EXPECT_EQ(*book_->leaf_hash(1), receipt->leaf_hash);
  EXPECT_EQ(hash_leaf(entries::write_leaf(*entry)), receipt->leaf_hash);
  EXPECT_EQ(book_->entry(id_of(7))->seq, 1U);
}

TEST_F(Books, WhatIsNotThereIsNotFound) {
  EXPECT_EQ(book_->entry(1).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(book_->entry(id_of(1)).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(book_->leaf_hash(0).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(book_->root_at(1).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(book_->attachment(base::sha256("x")).error().code, ErrorCode::kNotFound);
}

TEST_F(Books, TheSameIdAndContentIsAlreadyThere) {
  auto first = book_->append(drain(1));
  clock_.set({1'795'000'999'000});
  Draft again = drain(1);
  again.signature.person = "p2";  // who resends is no part of the content
  auto second = book_->append(again);
  ASSERT_TRUE(second.ok());
  EXPECT_TRUE(second->already_there);
  EXPECT_EQ(second->seq, first->seq);
  EXPECT_EQ(second->recorded_at, first->recorded_at);
  EXPECT_EQ(second->leaf_hash, first->leaf_hash);
  EXPECT_EQ(book_->head().size, 1U);
}

TEST_F(Books, TheSameIdWithOtherContentIsAConflict) {
  append(1, 1);
  Draft other = drain(2);
  other.content.id = id_of(1);
  auto refused = book_->append(other);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::kConflict);
  EXPECT_EQ(book_->head().size, 1U);
}

TEST_F(Books, AClockSetBackIsStoredAsItWasRead) {
  clock_.set({1'795'000'002'000});
  append(1, 1);
  clock_.set({1'795'000'001'000});
  append(2, 2);
  EXPECT_EQ(book_->entry(2)->recorded_at.ms, 1'795'000'001'000);
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Books, ADraftThatCannotBeStoredIsRefused) {
  Draft too_long = drain(1);
  too_long.content.fields.push_back({"note", entries::Text{std::string(70'000, 'x')}});
  EXPECT_EQ(book_->append(too_long).error().code, ErrorCode::kInvalid);
  Draft nameless = drain(2);
  nameless.subjects = {""};
  EXPECT_EQ(book_->append(nameless).error().code, ErrorCode::kInvalid);
  Draft without_kind = drain(3);
  without_kind.content.kind.clear();
  EXPECT_EQ(book_->append(without_kind).error().code, ErrorCode::kInvalid);
  Draft crowded = drain(4);
  crowded.subjects.assign(257, "container/w1");
  EXPECT_EQ(book_->append(crowded).error().code, ErrorCode::kInvalid);
  EXPECT_EQ(book_->head().size, 0U);
}

TEST_F(Books, GoesOnWhereItWasClosed) {
  append(1, 11);
  const TreeHead head = book_->head();
  close();
  open();
  EXPECT_EQ(book_->head(), head);
  append(12, 13);
  EXPECT_EQ(book_->head().size, 13U);
  EXPECT_EQ(verified().head, book_->head());
}

TEST_F(Books, KnowsItsRootAtEveryEarlierSize) {
  std::vector<base::Sha256Digest> roots{book_->head().root};
  for (std::uint64_t number = 1; number <= 19; ++number) {
    append(number, number);
    roots.push_back(book_->head().root);
  }
  for (std::uint64_t size = 0; size <= 19; ++size) {
    EXPECT_EQ(*book_->root_at(size), roots[size]) << size;
  }
}

/// The root that the path leads to: RFC 9162, section 2.1.3.2.
base::Sha256Digest root_from(const Inclusion& proof, std::uint64_t seq) {
  std::uint64_t node = seq - 1;
  std::uint64_t last = proof.head.size - 1;
  base::Sha256Digest root = hash_leaf(proof.leaf);
  for (const base::Sha256Digest& hash : proof.path) {
    EXPECT_NE(last, 0U) << "a hash too many";
    if (node % 2 == 1 || node == last) {
      root = hash_node(hash, root);
      while (node % 2 == 0 && node != 0) {
        node /= 2;
        last /= 2;
      }
    } else {
      root = hash_node(root, hash);
    }
    node /= 2;
    last /= 2;
  }
  EXPECT_EQ(last, 0U) << "a hash too few";
  return root;
}

TEST_F(Books, ShowThatEachEntryIsInThem) {
  std::vector<base::Sha256Digest> roots{book_->head().root};
  for (std::uint64_t number = 1; number <= 35; ++number) {
    append(number, number);
    roots.push_back(book_->head().root);
  }
  for (std::uint64_t size = 1; size <= 35; ++size) {
    for (std::uint64_t seq = 1; seq <= size; ++seq) {
      const auto proof = book_->inclusion(seq, size);
      ASSERT_TRUE(proof.ok()) << proof.error().detail;
      EXPECT_EQ(proof->head, (TreeHead{size, roots[size]}));
      ASSERT_EQ(root_from(*proof, seq), roots[size]) << seq << " of " << size;
    }
  }
  EXPECT_EQ(book_->inclusion(0, 35).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(book_->inclusion(8, 7).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(book_->inclusion(8, 36).error().code, ErrorCode::kNotFound);
}

TEST_F(Books, IsLockedAgainstASecondProcess) {
  enum { kUnavailable = 40, kOther = 41 };
  const pid_t child = ::fork();
  if (child == 0) {
    const auto second = try_open();
    const bool refused = !second.ok() && second.error().code == ErrorCode::kUnavailable;
    ::_exit(refused ? kUnavailable : kOther);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), kUnavailable);
}

TEST_F(Books, OfANewerSchemaIsRefused) {
  close();
  ASSERT_TRUE(testing::run_sql(folder(), "PRAGMA user_version=99"));
  EXPECT_EQ(try_open().error().code, ErrorCode::kConflict);
  EXPECT_EQ(verify(folder(), vocabulary_).error().code, ErrorCode::kConflict);
}

TEST_F(Books, SelectsByKindSubjectTimeAndSize) {
  for (std::uint64_t number = 1; number <= 12; ++number) {
    Draft draft = drain(number);
    if (number % 3 == 0) draft.content.kind = "level-reading";
    if (number % 2 == 0) draft.subjects = {"container/w2", "tool/t1"};
    ASSERT_TRUE(book_->append(draft).ok());
  }
  EXPECT_THAT(selected({.kind = "level-reading"}), ElementsAre(3, 6, 9, 12));
  EXPECT_THAT(selected({.subject = "container/w2"}), ElementsAre(2, 4, 6, 8, 10, 12));
  EXPECT_THAT(selected({.kind = "level-reading", .subject = "tool/t1"}), ElementsAre(6, 12));
  const base::Instant third = drain(3).content.occurred_at.instant;
  const base::Instant sixth = drain(6).content.occurred_at.instant;
  EXPECT_THAT(selected({.from = third, .until = sixth}), ElementsAre(3, 4, 5));
  EXPECT_THAT(selected({.kind = "level-reading", .until = sixth}), ElementsAre(3));
  EXPECT_THAT(selected({.subject = "container/w1", .from = third}), ElementsAre(3, 5, 7, 9, 11));
  EXPECT_THAT(selected({.after_seq = 9}), ElementsAre(10, 11, 12));
  EXPECT_THAT(selected({.known_at = 2}), ElementsAre(1, 2));
  EXPECT_THAT(selected({.subject = "tool/t1", .after_seq = 4, .known_at = 10}),
              ElementsAre(6, 8, 10));
  EXPECT_THAT(selected({.kind = "briefing"}), IsEmpty());
}

TEST_F(Books, PagesByNumberMeetEveryEntryOnce) {
  append(1, 23);
  std::vector<std::uint64_t> met;
  Selection selection{.kind = "oil-drained", .limit = 5};
  for (;;) {
    const auto page = selected(selection);
    if (page.empty()) break;
    EXPECT_LE(page.size(), 5U);
    met.insert(met.end(), page.begin(), page.end());
    selection.after_seq = page.back();
  }
  ASSERT_EQ(met.size(), 23U);
  for (std::size_t i = 0; i < met.size(); ++i) EXPECT_EQ(met[i], i + 1);
}

TEST_F(Books, FindsALateEntryByWhenItHappened) {
  append(10, 12);
  append(1, 1);
  const base::Instant until = drain(5).content.occurred_at.instant;
  EXPECT_THAT(selected({.until = until}), ElementsAre(4));
}

TEST_F(Books, FindsTheCorrectionsOfAnEntry) {
  append(1, 2);
  for (const std::uint64_t number : {3U, 4U}) {
    Draft correction = drain(number);
    correction.content.kind = "correction";
    correction.content.corrects = id_of(1);
    ASSERT_TRUE(book_->append(correction).ok());
  }
  auto corrections = book_->corrections_of(id_of(1));
  ASSERT_TRUE(corrections.ok());
  ASSERT_EQ(corrections->size(), 2U);
  EXPECT_EQ((*corrections)[0].seq, 3U);
  EXPECT_EQ((*corrections)[1].seq, 4U);
  EXPECT_TRUE(book_->corrections_of(id_of(2))->empty());
}

TEST_F(Books, EachEntryIsVisitedInOrderOverSeveralPages) {
  append(1, 600);
  std::uint64_t next = 5;
  const auto visited = book_->each(5, [&](const entries::Entry& entry) -> base::Status<> {
    EXPECT_EQ(entry.seq, next++);
    EXPECT_TRUE(book_->entry(entry.seq).ok()) << "the book can be read from inside a visit";
    return base::Done{};
  });
  EXPECT_TRUE(visited.ok());
  EXPECT_EQ(next, 601U);
}

TEST_F(Books, AVisitThatFailsEndsTheReading) {
  append(1, 5);
  int visits = 0;
  const auto visited = book_->each(1, [&](const entries::Entry&) -> base::Status<> {
    if (++visits == 3) return base::Error{ErrorCode::kForbidden, "enough"};
    return base::Done{};
  });
  EXPECT_EQ(visited.error().code, ErrorCode::kForbidden);
  EXPECT_EQ(visits, 3);
}

TEST_F(Books, TheFollowerHearsOfEachNewEntryOnce) {
  std::vector<std::uint64_t> heard;
  book_->follow([&](const entries::Entry& entry) {
    heard.push_back(entry.seq);
    EXPECT_EQ(book_->head().size, entry.seq);
    EXPECT_EQ(number_of(*book_->entry(entry.seq)), number_of(entry));
  });
  append(1, 3);
  append(2, 2);  // already there
  Draft conflicting = drain(9);
  conflicting.content.id = id_of(1);
  EXPECT_FALSE(book_->append(conflicting).ok());
  EXPECT_THAT(heard, ElementsAre(1, 2, 3));
}

TEST_F(Books, KeepsAttachmentsByTheirDigest) {
  const std::string figures(100'000, '7');
  ASSERT_TRUE(book_->keep_attachment(figures).ok());
  ASSERT_TRUE(book_->keep_attachment(figures).ok()) << "keeping it again changes nothing";
  EXPECT_EQ(*book_->attachment(base::sha256(figures)), figures);
  EXPECT_TRUE(book_->keep_attachment("").ok());
  EXPECT_EQ(*book_->attachment(base::sha256(std::string_view())), "");
  EXPECT_EQ(book_->keep_attachment(std::string(16'777'217, 'x')).error().code, ErrorCode::kInvalid);
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Books, AnEntryNamesOnlyAttachmentsThatAreKept) {
  Draft draft = drain(1);
  draft.content.attachments = {base::to_hex(base::sha256("figures"))};
  EXPECT_EQ(book_->append(draft).error().code, ErrorCode::kInvalid);
  ASSERT_TRUE(book_->keep_attachment("figures").ok());
  EXPECT_TRUE(book_->append(draft).ok());
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Books, RefuseChangeByTriggersOfTheirOwn) {
  append(1, 3);
  ASSERT_TRUE(book_->keep_attachment("figures").ok());
  close();
  const char* const attempts[] = {
      "UPDATE entry SET kind = 'other' WHERE seq = 2",
      "DELETE FROM entry WHERE seq = 3",
      "DELETE FROM entry",
      "UPDATE mention SET subject = 'container/w2'",
      "DELETE FROM mention WHERE seq = 1",
      "INSERT INTO mention (subject, seq) VALUES ('container/w2', 1)",
      "UPDATE attachment SET bytes = x'00'",
      "DELETE FROM attachment",
      "INSERT INTO entry SELECT 5, x'000102030405060708090a0b0c0d0e0f', kind, occurred_at_ms, "
      "corrects, subjects_hash, leaf_hash, interior, root, leaf FROM entry WHERE seq = 1",
      "INSERT INTO entry SELECT NULL, x'000102030405060708090a0b0c0d0e0f', kind, occurred_at_ms, "
      "corrects, subjects_hash, leaf_hash, interior, root, leaf FROM entry WHERE seq = 1",
      "INSERT OR REPLACE INTO entry SELECT 4, id, kind, occurred_at_ms, corrects, subjects_hash, "
      "leaf_hash, interior, root, leaf FROM entry WHERE seq = 1"};
  for (const char* attempt : attempts) EXPECT_FALSE(testing::run_sql(folder(), attempt)) << attempt;
  EXPECT_THAT(verified().faults, IsEmpty());
}

}  // namespace
}  // namespace benchwarden::book
