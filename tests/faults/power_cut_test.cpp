#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <iostream>
#include <thread>
#include <utility>

#include "book/book_fixture.h"
#include "faults/faulty_disk.h"
#include "faults/rounds.h"

namespace benchwarden {
namespace {

using testing::drain;
using testing::id_of;

/// What one writer was told, and what it could not be told.
struct Answers {
  std::vector<std::pair<std::uint64_t, book::Receipt>> recorded;
  std::vector<std::uint64_t> open;
};

class PowerCut : public testing::OnFaultyDisk, public testing::BookTest {
 protected:
  static constexpr std::uint64_t kThreads = 8;

  void TearDown() override {
    book_.reset();
    std::cout << "power cuts: " << cuts_ << "; entries answered before one: " << told_
              << ", not answered: " << untold_
              << ", of these recorded all the same: " << recorded_untold_ << '\n';
  }

  static book::Draft draft_of(std::uint64_t number, const std::string& picture) {
    book::Draft draft = drain(number);
    if (!picture.empty()) {
      draft.content.attachments.push_back(base::to_hex(base::sha256(picture)));
    }
    return draft;
  }
  static std::string picture_of(std::uint64_t number) {
    if (number % 7 != 0) return {};
    return std::string(5000 + number % 3000, static_cast<char>('a' + number % 26));
  }

  /// Appends until the power goes, or until so many are recorded.
  Answers write(std::uint64_t first, std::uint64_t count) {
    Answers answers;
    for (std::uint64_t number = first; number < first + count; ++number) {
      const std::string picture = picture_of(number);
      if (!picture.empty() && !book_->stage_attachment(picture).ok()) return answers;
      auto receipt = book_->append(draft_of(number, picture));
      if (!receipt.ok()) {
        answers.open.push_back(number);
        return answers;
      }
      answers.recorded.emplace_back(number, *receipt);
    }
    return answers;
  }

  /// A life of the book that ends with its power. `each`: how many each writer has to record.
  void live(std::uint64_t each, int cut_at) {
    before_this_life_ = answered_.size();
    disk_.watch(folder() / "head.txt");
    disk_.cut_at(cut_at);
    auto opened = try_open();
    if (opened.ok()) {
      book_ = *std::move(opened);
      std::vector<Answers> answers(kThreads);
      std::vector<std::thread> threads;
      for (std::uint64_t i = 0; i < kThreads; ++i) {
        threads.emplace_back([&, i] { answers[i] = write(next_ + i * each, each); });
      }
      for (std::thread& thread : threads) thread.join();
      for (const Answers& one : answers) {
        answered_.insert(answered_.end(), one.recorded.begin(), one.recorded.end());
        open_.insert(open_.end(), one.open.begin(), one.open.end());
      }
      told_ += answered_.size() - before_this_life_;
      untold_ += open_.size();
      next_ += kThreads * each;
      book_.reset();  // brings the log into the book, which the cut may fall into
    }
    if (disk_.is_cut()) ++cuts_;
  }

  void come_back(std::mt19937_64& random) {
    const auto files = disk_.survivors(random);
    testing::put_files(files, folder());
    auto opened = try_open();
    ASSERT_TRUE(opened.ok()) << opened.error().detail;
    book_ = *std::move(opened);
  }

  void expect_in_book(std::uint64_t number, const book::Receipt& receipt) {
    auto entry = book_->entry(id_of(number));
    ASSERT_TRUE(entry.ok()) << "answered entry " << number << ": " << entry.error().detail;
    ASSERT_EQ(entry->seq, receipt.seq);
    const std::string picture = picture_of(number);
    if (picture.empty()) return;
    ASSERT_EQ(book_->attachment(base::sha256(picture)).value(), picture);
  }
  void expect_answered_once() {
    for (std::size_t i = 0; i < answered_.size(); ++i) {
      const auto& [number, receipt] = answered_[i];
      const auto hash = book_->leaf_hash(receipt.seq);
      ASSERT_TRUE(hash.ok()) << "answered entry " << number << " is gone";
      ASSERT_EQ(*hash, receipt.leaf_hash);
      if (i >= before_this_life_) expect_in_book(number, receipt);
    }
    // An id stands in the book once, so what nobody was told makes up the rest.
    EXPECT_LE(book_->head().size, answered_.size() + open_.size());
  }
  void expect_whole() {
    const auto report = verified();
    ASSERT_TRUE(report.faults.empty()) << report.faults[0].what;
    ASSERT_EQ(report.head.size, answered_.size());
  }

  /// As a tablet does that was told nothing: the answer is the same whether it is there or not.
  void send_again() {
    for (const std::uint64_t number : open_) {
      const std::string picture = picture_of(number);
      if (!picture.empty()) {
        ASSERT_TRUE(book_->stage_attachment(picture).ok());
      }
      auto receipt = book_->append(draft_of(number, picture));
      ASSERT_TRUE(receipt.ok()) << receipt.error().detail;
      if (receipt->already_there) ++recorded_untold_;
      answered_.emplace_back(number, *receipt);
    }
    open_.clear();
    EXPECT_EQ(book_->head().size, answered_.size());
  }

  void forget_book() {
    book_.reset();
    testing::put_files({}, folder());
    disk_.survivors(scrap_);
    answered_.clear();
    next_ = 1;
  }

  std::vector<std::pair<std::uint64_t, book::Receipt>> answered_;
  std::vector<std::uint64_t> open_;
  std::uint64_t next_ = 1;
  std::size_t before_this_life_ = 0;  ///< of those answered
  std::size_t told_ = 0;              ///< over all lives of all books
  std::size_t untold_ = 0;
  std::size_t recorded_untold_ = 0;
  int cuts_ = 0;
  std::mt19937_64 scrap_;
};

TEST_F(PowerCut, LeavesEveryAnsweredEntryInTheBookOnce) {
  constexpr int kLivesOfABook = 8;
  testing::Rounds rounds("BENCHWARDEN_POWER_CUTS", 60);
  while (rounds.next()) {
    std::mt19937_64& random = rounds.random();
    if (rounds.number() % kLivesOfABook == 0) forget_book();
    // Short lives end at a commit, long ones while the log is brought into the book.
    const bool is_long = random() % 4 == 0;
    live(is_long ? 40 : 4 + random() % 8, 1 + static_cast<int>(random() % (is_long ? 6000 : 500)));
    ASSERT_NO_FATAL_FAILURE(come_back(random)) << rounds.where();
    ASSERT_NO_FATAL_FAILURE(expect_answered_once()) << rounds.where();
    ASSERT_NO_FATAL_FAILURE(send_again()) << rounds.where();
    if (rounds.number() % 4 == 3) {
      ASSERT_NO_FATAL_FAILURE(expect_whole()) << rounds.where();
    }
    ASSERT_FALSE(HasFailure()) << rounds.where();
    book_.reset();
  }
  EXPECT_GT(cuts_, rounds.number() / 2) << "most lives end with the power";
  EXPECT_GT(told_, 0U);
}

}  // namespace
}  // namespace benchwarden
