#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <deque>
#include <functional>
#include <set>
#include <thread>

#include "book/book_fixture.h"
#include "book/turn_queue.h"
#include "book/writer.h"

namespace benchwarden::book {
namespace {

using base::ErrorCode;
using testing::drain;
using ::testing::ElementsAre;
using testing::id_of;
using ::testing::IsEmpty;

void in_threads(int count, const std::function<void(int)>& work) {
  std::vector<std::thread> threads;
  for (int i = 0; i < count; ++i) threads.emplace_back(work, i);
  for (std::thread& thread : threads) thread.join();
}

/// Drafts committed as one group, without threads.
class Groups : public testing::BookTest {
 protected:
  void SetUp() override {
    auto writer = Writer::open(folder(), vocabulary_, clock_);
    ASSERT_TRUE(writer.ok()) << writer.error().detail;
    writer_.emplace(*std::move(writer));
  }
  std::vector<base::Result<Receipt>> commit(const std::vector<Draft>& drafts) {
    std::deque<TurnQueue::Ticket> tickets;
    std::vector<TurnQueue::Ticket*> group;
    for (const Draft& draft : drafts) group.push_back(&tickets.emplace_back(draft));
    recorded_ = writer_->commit(group);
    std::vector<base::Result<Receipt>> receipts;
    for (const auto& ticket : tickets) receipts.push_back(ticket.receipt.value());
    return receipts;
  }
  std::vector<std::uint64_t> recorded_seqs() const {
    std::vector<std::uint64_t> seqs;
    for (const auto& entry : recorded_) seqs.push_back(entry.seq);
    return seqs;
  }
  std::optional<Writer> writer_;
  std::vector<entries::Entry> recorded_;
};

TEST_F(Groups, ShareOneCommitAndOneRoot) {
  const auto receipts = commit({drain(1), drain(2), drain(3)});
  EXPECT_THAT(recorded_seqs(), ElementsAre(1, 2, 3));
  for (std::size_t i = 0; i < receipts.size(); ++i) EXPECT_EQ(receipts[i]->seq, i + 1);
  commit({drain(4), drain(5)});
  EXPECT_EQ(testing::sql_number(folder(), "SELECT count(root) FROM entry"), 2);
  EXPECT_EQ(testing::sql_number(folder(), "SELECT sum(seq) FROM entry WHERE root IS NOT NULL"), 8);
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Groups, ARefusedDraftFailsAlone) {
  Draft too_long = drain(2);
  too_long.content.fields.push_back({"note", entries::Text{std::string(70'000, 'x')}});
  const auto receipts = commit({drain(1), too_long, drain(3)});
  EXPECT_EQ(receipts[0]->seq, 1U);
  EXPECT_EQ(receipts[1].error().code, ErrorCode::kInvalid);
  EXPECT_EQ(receipts[2]->seq, 2U);
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Groups, ADraftThatTheDatabaseRefusesFailsAlone) {
  // A rule that our own checks do not know: it shows only when the row is inserted, in the middle
  // of the group's transaction.
  ASSERT_TRUE(testing::run_sql(folder(),
                               "CREATE TRIGGER strange BEFORE INSERT ON mention "
                               "WHEN NEW.subject = 'tool/strange' "
                               "BEGIN SELECT RAISE(ABORT, 'no'); END"));
  Draft strange = drain(3);
  strange.subjects = {"container/w1", "tool/strange"};
  const auto receipts = commit({drain(1), drain(2), strange, drain(4), strange, drain(5)});
  EXPECT_EQ(receipts[2].error().code, ErrorCode::kConflict);
  EXPECT_EQ(receipts[4].error().code, ErrorCode::kConflict);
  EXPECT_THAT(recorded_seqs(), ElementsAre(1, 2, 3, 4));
  EXPECT_EQ(receipts[3]->seq, 3U);
  EXPECT_EQ(receipts[5]->seq, 4U);
  EXPECT_EQ(testing::sql_number(folder(), "SELECT count(*) FROM mention"), 4);
  ASSERT_TRUE(testing::run_sql(folder(), "DROP TRIGGER strange"));
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Groups, OfBadDraftsOnlyRecordNothing) {
  Draft bad = drain(1);
  bad.subjects = {"two\nlines"};
  const auto receipts = commit({bad, bad});
  EXPECT_FALSE(receipts[0].ok());
  EXPECT_FALSE(receipts[1].ok());
  EXPECT_THAT(recorded_, IsEmpty());
  EXPECT_EQ(writer_->head().size, 0U);
}

TEST_F(Groups, TheSameIdTwiceInOneIsOneEntry) {
  Draft conflicting = drain(9);
  conflicting.content.id = id_of(1);
  const auto receipts = commit({drain(1), drain(1), conflicting, drain(2)});
  EXPECT_FALSE(receipts[0]->already_there);
  EXPECT_TRUE(receipts[1]->already_there);
  EXPECT_EQ(receipts[1]->seq, 1U);
  EXPECT_EQ(receipts[1]->leaf_hash, receipts[0]->leaf_hash);
  EXPECT_EQ(receipts[2].error().code, ErrorCode::kConflict);
  EXPECT_THAT(recorded_seqs(), ElementsAre(1, 2));
}

TEST_F(Groups, ASecondDraftOfOneIdGoesInWhenTheFirstCannot) {
  ASSERT_TRUE(testing::run_sql(folder(),
                               "CREATE TRIGGER strange BEFORE INSERT ON entry "
                               "WHEN NEW.kind = 'strange' BEGIN SELECT RAISE(ABORT, 'no'); END"));
  Draft strange = drain(1);
  strange.content.kind = "strange";
  const auto receipts = commit({strange, drain(1)});
  EXPECT_FALSE(receipts[0].ok());
  ASSERT_TRUE(receipts[1].ok()) << receipts[1].error().detail;
  EXPECT_FALSE(receipts[1]->already_there);
}

class Threads : public testing::BookTest {
 protected:
  void SetUp() override { open(); }
};

TEST_F(Threads, EachAnsweredEntryIsThereOnce) {
  constexpr int kThreads = 16;
  constexpr std::uint64_t kEach = 100;
  std::vector<std::uint64_t> heard;  // needs no lock: the follower is called in turn
  book_->follow([&](const entries::Entry& entry) { heard.push_back(entry.seq); });
  std::vector<std::vector<Receipt>> receipts(kThreads);
  in_threads(kThreads, [&](int thread) {
    for (std::uint64_t i = 1; i <= kEach; ++i) {
      auto receipt = book_->append(drain(static_cast<std::uint64_t>(thread) * kEach + i));
      ASSERT_TRUE(receipt.ok()) << receipt.error().detail;
      receipts[static_cast<std::size_t>(thread)].push_back(*receipt);
    }
  });
  std::set<std::uint64_t> seqs;
  for (std::size_t thread = 0; thread < kThreads; ++thread) {
    std::uint64_t last = 0;
    for (std::uint64_t i = 1; i <= kEach; ++i) {
      const Receipt& receipt = receipts[thread][i - 1];
      EXPECT_LT(last, receipt.seq) << "a thread's own entries keep their order";
      last = receipt.seq;
      seqs.insert(receipt.seq);
      auto entry = book_->entry(id_of(thread * kEach + i));
      ASSERT_TRUE(entry.ok());
      EXPECT_EQ(entry->seq, receipt.seq);
      EXPECT_EQ(*book_->leaf_hash(receipt.seq), receipt.leaf_hash);
    }
  }
  EXPECT_EQ(seqs.size(), kThreads * kEach);
  EXPECT_EQ(*seqs.rbegin(), kThreads * kEach) << "numbers without a gap";
  ASSERT_EQ(heard.size(), kThreads * kEach);
  EXPECT_TRUE(std::is_sorted(heard.begin(), heard.end()));
  const auto groups = testing::sql_number(folder(), "SELECT count(root) FROM entry");
  EXPECT_LT(groups, static_cast<std::int64_t>(kThreads * kEach)) << "commits were shared";
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Threads, ARaceForOneIdHasOneEntry) {
  for (std::uint64_t round = 1; round <= 20; ++round) {
    std::atomic<int> fresh{0};
    std::set<std::uint64_t> seqs;
    std::mutex mutex;
    in_threads(8, [&](int) {
      auto receipt = book_->append(drain(round));
      ASSERT_TRUE(receipt.ok());
      if (!receipt->already_there) ++fresh;
      const std::lock_guard lock(mutex);
      seqs.insert(receipt->seq);
    });
    EXPECT_EQ(fresh, 1);
    EXPECT_EQ(seqs, std::set<std::uint64_t>{round});
  }
}

TEST_F(Threads, ARaceOfDifferentContentsForOneIdHasOneWinner) {
  for (std::uint64_t round = 1; round <= 20; ++round) {
    std::atomic<int> recorded{0};
    std::atomic<int> conflicts{0};
    in_threads(8, [&](int thread) {
      Draft draft = drain(1000 * round + static_cast<std::uint64_t>(thread));
      draft.content.id = id_of(round);
      auto receipt = book_->append(draft);
      if (receipt.ok()) {
        ++recorded;
      } else if (receipt.error().code == ErrorCode::kConflict) {
        ++conflicts;
      }
    });
    EXPECT_EQ(recorded, 1);
    EXPECT_EQ(conflicts, 7);
    EXPECT_EQ(book_->head().size, round);
  }
}

TEST_F(Threads, ReadersSeeWholeEntriesWhileOthersWrite) {
  std::atomic<bool> done{false};
  std::atomic<int> reads{0};
  std::thread writers([&] {
    in_threads(4, [&](int thread) {
      const auto base = static_cast<std::uint64_t>(thread) * 100;
      for (std::uint64_t i = 1; i <= 100; ++i) ASSERT_TRUE(book_->append(drain(base + i)).ok());
    });
    done = true;
  });
  in_threads(8, [&](int thread) {
    while (!done) {
      const TreeHead head = book_->head();
      auto entries = book_->select({.subject = "container/w1", .known_at = head.size, .limit = 20});
      ASSERT_TRUE(entries.ok()) << entries.error().detail;
      ASSERT_EQ(entries->size(), std::min<std::uint64_t>(head.size, 20));
      if (thread % 2 == 0 && head.size > 0) {
        auto newest = book_->entry(head.size);
        ASSERT_TRUE(newest.ok()) << newest.error().detail;
        EXPECT_EQ(hash_leaf(entries::write_leaf(*newest)), *book_->leaf_hash(head.size));
        EXPECT_EQ(*book_->root_at(head.size), head.root);
      }
      ++reads;
    }
  });
  writers.join();
  EXPECT_GT(reads, 8);
  EXPECT_EQ(book_->head().size, 400U);
}

TEST_F(Threads, AttachmentsAndFollowersTakeTheirTurnAmongEntries) {
  std::atomic<int> heard{0};
  in_threads(6, [&](int thread) {
    for (std::uint64_t i = 1; i <= 30; ++i) {
      const auto number = static_cast<std::uint64_t>(thread) * 30 + i;
      if (thread == 0) {
        EXPECT_TRUE(book_->keep_attachment("figures " + std::to_string(i)).ok());
      } else if (thread == 1) {
        book_->follow([&heard](const entries::Entry&) { ++heard; });
      } else {
        EXPECT_TRUE(book_->append(drain(number)).ok());
      }
    }
  });
  EXPECT_EQ(book_->head().size, 120U);
  EXPECT_TRUE(book_->attachment(base::sha256("figures 30")).ok());
  EXPECT_THAT(verified().faults, IsEmpty());
}

TEST_F(Threads, VerifyWorksBesideAWritingProcess) {
  std::thread writer([&] { append(1, 300); });
  for (int i = 0; i < 5; ++i) {
    const auto report = verified();
    EXPECT_THAT(report.faults, IsEmpty()) << report.faults[0].what;
  }
  writer.join();
  EXPECT_EQ(verified().head, book_->head());
}

}  // namespace
}  // namespace benchwarden::book
