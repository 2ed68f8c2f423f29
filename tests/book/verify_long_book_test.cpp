// A book is read in one thread and understood in another: that must not show.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <thread>

#include "book/book_fixture.h"
#include "book/verify.h"

namespace benchwarden::book {
namespace {

class VerifyLongBook : public testing::BookTest {
 protected:
  static constexpr std::uint64_t kSize = 600;  // more than are handed over at a time
};

TEST_F(VerifyLongBook, IsHeldInItsOrderWhileItIsReadOn) {
  open();
  append(1, kSize);
  close();
  testing::tamper(folder(), "UPDATE mention SET seq = 900 WHERE seq = 300");
  testing::tamper(folder(), "UPDATE entry SET kind = 'briefing' WHERE seq = 301 OR seq = 550");
  std::uint64_t asked = 0;
  Meaning meaning;
  meaning.follow = [&](const entries::Entry& entry, const EntrySource& book) -> base::Status<> {
    EXPECT_EQ(entry.seq, ++asked);
    EXPECT_EQ(book.entry(testing::id_of(entry.seq))->seq, entry.seq);
    return base::Done{};
  };
  const auto report = verify(folder(), vocabulary_, meaning);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_EQ(asked, kSize);
  std::vector<std::uint64_t> seqs;
  for (const VerifyFault& fault : report->faults) seqs.push_back(fault.seq.value_or(0));
  EXPECT_THAT(seqs, ::testing::ElementsAre(300U, 301U, 550U, 900U));
}

TEST_F(VerifyLongBook, CountsTheMentionsOfLostEntriesThatItDoesNotTell) {
  open();
  append(1, kSize);
  close();
  testing::tamper(folder(), "DELETE FROM entry WHERE seq BETWEEN 11 AND 400 OR seq > 500");
  const auto report = verify(folder(), vocabulary_);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  const std::size_t told = report->faults.size() - 1;
  EXPECT_EQ(told, 100U);
  // A mention of each of 490, and of each of the two gaps that it is there.
  EXPECT_EQ(report->faults.back().what, std::to_string(490 + 2 - told) + " more faults");
}

TEST_F(VerifyLongBook, MayGrowMeanwhile) {
  open();
  append(1, kSize / 2);
  std::atomic<bool> is_written = false;
  std::thread writer([&] {
    append(kSize / 2 + 1, kSize);
    is_written = true;
  });
  std::uint64_t size = 0;
  for (bool is_last = false; !is_last;) {
    is_last = is_written;
    const auto report = verify(folder(), vocabulary_);
    EXPECT_TRUE(report.ok());
    if (!report.ok() || !report->faults.empty()) break;
    EXPECT_GE(report->head.size, size);
    size = report->head.size;
  }
  writer.join();
  EXPECT_EQ(size, kSize);
}

}  // namespace
}  // namespace benchwarden::book
