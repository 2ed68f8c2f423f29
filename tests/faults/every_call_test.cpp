#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <map>
#include <set>
#include <utility>

#include "book/backup_files.h"
#include "book/book_fixture.h"
#include "faults/fault_cases.h"

namespace benchwarden {
namespace {

using base::ErrorCode;
using testing::DiskFault;
using testing::drain;
using testing::FaultCase;
using testing::id_of;

/// What a book does from its first opening to its second closing, with a fault in it somewhere.
class EveryCall : public testing::OnFaultyDisk,
                  public testing::BookTest,
                  public ::testing::WithParamInterface<FaultCase> {
 protected:
  static constexpr std::uint64_t kWithPicture = 4;
  static constexpr std::uint64_t kLast = 6;

  static std::string picture() { return std::string(9000, 'p'); }
  static book::Draft draft_of(std::uint64_t number) {
    book::Draft draft = drain(number);
    if (number == kWithPicture) {
      draft.content.attachments.push_back(base::to_hex(base::sha256(picture())));
    }
    return draft;
  }

  /// The answer is a right one, or an error of the disk that says what it is about.
  template <class T>
  bool went(const base::Result<T>& answer) {
    if (answer.ok()) return true;
    ++refused_;
    if (may_lie_) return false;
    EXPECT_TRUE(answer.error().code == ErrorCode::kUnavailable ||
                answer.error().code == ErrorCode::kDamaged)
        << static_cast<int>(answer.error().code) << ": " << answer.error().detail;
    EXPECT_GT(answer.error().detail.size(), 10U) << answer.error().detail;
    return false;
  }

  bool open_book() {
    auto opened = try_open();
    if (!went(opened)) return false;
    book_ = *std::move(opened);
    return true;
  }
  void record(std::uint64_t number) {
    if (number == kWithPicture && !went(book_->stage_attachment(picture()))) return;
    const bool is_new = tried_.insert(number).second;
    const auto receipt = book_->append(draft_of(number));
    if (!went(receipt)) return;
    const auto known = answered_.find(number);
    if (known != answered_.end() && !may_lie_) {
      EXPECT_TRUE(receipt->already_there);
      EXPECT_EQ(receipt->seq, known->second.seq);
    }
    EXPECT_FALSE(is_new && receipt->already_there);
    answered_[number] = *receipt;
  }
  void read_all() {
    for (const auto& [number, receipt] : answered_) {
      const auto entry = book_->entry(id_of(number));
      if (went(entry)) {
        EXPECT_EQ(entry->seq, receipt.seq);
        EXPECT_EQ(testing::number_of(*entry), number);
      }
    }
    book::Selection all;
    const auto selected = book_->select(all);
    if (went(selected) && !may_lie_) {
      EXPECT_EQ(selected->size(), book_->head().size);
    }
  }
  void use_book(std::uint64_t from, std::uint64_t to) {
    for (std::uint64_t number = from; number <= to; ++number) record(number);
    read_all();
    if (book_->head().size == 0) return;
    went(book_->keep_snapshot({1, book_->head(), std::string(3000, 's')}));
    const std::uint64_t size = book_->head().size;
    went(book_->keep_checkpoint({0, size, clock_.now(), "key", "note " + std::to_string(size)}));
    std::filesystem::remove_all(folder() / "copy");
    std::filesystem::create_directory(folder() / "copy");
    went(book::copy_book(folder(), folder() / "copy"));
    const auto snapshot = book_->snapshot();
    if (snapshot) {
      EXPECT_EQ(snapshot->bytes, std::string(3000, 's'));
    }
  }
  void live() {
    for (const auto& [from, to] : {std::pair(1, 3), std::pair(4, 5)}) {
      if (open_book()) {
        use_book(static_cast<std::uint64_t>(from), static_cast<std::uint64_t>(to));
      }
      if (from == 1) book_.reset();
    }
  }

  /// Everything that was ever answered is there once, and the book goes on.
  void expect_whole() {
    disk_.repair();
    const bool same_process = book_ != nullptr;
    if (same_process) {
      ++gone_on_;
    } else {
      open();
    }
    for (std::uint64_t number = 1; number <= kLast; ++number) record(number);
    ASSERT_EQ(answered_.size(), kLast) << "after the fault the book records again";
    EXPECT_EQ(book_->head().size, kLast);
    read_all();
    EXPECT_EQ(book_->attachment(base::sha256(picture())).value(), picture());
    book_.reset();
    const auto report = verified();
    ASSERT_TRUE(report.faults.empty()) << report.faults[0].what;
    EXPECT_EQ(report.head.size, kLast);
    open();
    read_all();
    book_.reset();
  }

  void start_anew() {
    book_.reset();
    testing::put_files({}, folder());
    answered_.clear();
    tried_.clear();
  }

  /// One life with the fault at call `number`; whether that was reached.
  bool try_at(int number, bool lasts) {
    SCOPED_TRACE(std::string(GetParam().name) + (lasts ? " from" : " at") + " call " +
                 std::to_string(number));
    start_anew();
    DiskFault fault = GetParam().fault;
    fault.lasts = lasts;
    disk_.arm(fault, number);
    refused_ = 0;
    live();
    const bool reached = disk_.hits() > 0;
    const int refused_by_fault = refused_;
    expect_whole();
    ++runs_;
    lives_refused_ += refused_by_fault > 0 ? 1 : 0;
    EXPECT_EQ(refused_, refused_by_fault) << "an error after the fault was gone";
    return reached;
  }

  bool damage_stays() {
    const auto report = book::verify(folder(), vocabulary_);
    if (!report.ok() || !report->faults.empty()) return true;
    const auto again = try_open();
    EXPECT_TRUE(again.ok()) << "verify finds nothing in what does not open: "
                            << again.error().detail;
    return !again.ok();
  }
  /// As `try_at`, of a disk that lies once: a right entry or none, and what it damaged is found.
  bool try_lie_at(int number) {
    SCOPED_TRACE(std::string(GetParam().name) + " at call " + std::to_string(number));
    start_anew();
    disk_.arm(GetParam().fault, number);
    may_lie_ = true;
    refused_ = 0;
    live();
    may_lie_ = false;
    const bool reached = disk_.hits() > 0;
    ++runs_;
    lives_refused_ += refused_ > 0 ? 1 : 0;
    disk_.repair();
    book_.reset();
    if (damage_stays()) {
      ++found_;
    } else {
      expect_whole();
    }
    return reached;
  }

  bool may_lie_ = false;
  int found_ = 0;
  std::map<std::uint64_t, book::Receipt> answered_;
  std::set<std::uint64_t> tried_;  ///< whether answered or not
  int refused_ = 0;
  int runs_ = 0;
  int lives_refused_ = 0;
  int gone_on_ = 0;
};

TEST_P(EveryCall, EndsInAnErrorOrInTheRightAnswer) {
  const int step = testing::step_of(GetParam());
  int last = 0;
  for (const bool lasts : {false, true}) {
    for (int number = 1;; number += step) {
      if (!try_at(number, lasts) || HasFailure()) break;
      last = std::max(last, number);
    }
  }
  std::cout << GetParam().name << ": " << runs_ << " lives, fault at up to call " << last << "; in "
            << lives_refused_ << " something was refused, in " << gone_on_
            << " the same process went on\n";
  EXPECT_GT(last, 0) << "the fault never happened";
}

class EveryLie : public EveryCall {};

TEST_P(EveryLie, ChangesNoEntryThatIsReadAndIsFoundIfItStays) {
  int last = 0;
  for (int number = 1; try_lie_at(number) && !HasFailure();
       number += testing::step_of(GetParam())) {
    last = number;
  }
  std::cout << GetParam().name << ": " << runs_ << " lives, lie at up to call " << last << "; in "
            << lives_refused_ << " something was refused, in " << found_
            << " verify found damage that stayed\n";
  EXPECT_GT(last, 0) << "the fault never happened";
  EXPECT_GT(lives_refused_, 0) << "no lie was ever seen through";
}

INSTANTIATE_TEST_SUITE_P(Faults, EveryLie, ::testing::ValuesIn(testing::lies()),
                         [](const auto& one) { return std::string(one.param.name); });

INSTANTIATE_TEST_SUITE_P(Faults, EveryCall, ::testing::ValuesIn(testing::told_faults()),
                         [](const auto& one) { return std::string(one.param.name); });

}  // namespace
}  // namespace benchwarden
