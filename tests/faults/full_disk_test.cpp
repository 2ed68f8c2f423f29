#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <iostream>
#include <thread>
#include <vector>

#include "book/book_fixture.h"
#include "faults/faulty_disk.h"
#include "faults/rounds.h"

namespace benchwarden {
namespace {

using base::ErrorCode;
using testing::drain;

class FullDisk : public testing::OnFaultyDisk, public testing::BookTest {
 protected:
  static constexpr std::uint64_t kThreads = 4;

  void SetUp() override {
    open();
    append(1, 5);
    next_ = 6;
  }
  static std::string photo(std::uint64_t number) {
    return std::string(20'000, static_cast<char>('a' + number % 26)) + std::to_string(number);
  }

  /// What one writer does beside the others; how much of it was refused.
  int use(std::uint64_t number) {
    int refused = 0;
    const auto went = [&](const auto& answer) {
      if (answer.ok()) return true;
      ++refused;
      EXPECT_EQ(answer.error().code, ErrorCode::kUnavailable) << answer.error().detail;
      EXPECT_NE(answer.error().detail.find("full"), std::string::npos) << answer.error().detail;
      return false;
    };
    auto receipt = book_->append(drain(number));
    if (went(receipt)) ++recorded_;
    went(book_->stage_attachment(photo(number)));
    went(book_->keep_snapshot({1, book_->head(), photo(number)}));
    const auto seen = book_->entry(3);
    EXPECT_TRUE(seen.ok()) << "reading goes on: " << seen.error().detail;
    return refused;
  }
  int use_all(std::uint64_t each) {
    std::atomic<int> refused = 0;
    std::vector<std::thread> threads;
    for (std::uint64_t i = 0; i < kThreads; ++i) {
      threads.emplace_back([&, i] {
        for (std::uint64_t n = 0; n < each; ++n) refused += use(next_ + i * each + n);
      });
    }
    for (std::thread& thread : threads) thread.join();
    next_ += kThreads * each;
    return refused;
  }

  std::uint64_t next_ = 1;
  std::atomic<std::uint64_t> recorded_ = 5;
};

TEST_F(FullDisk, RefusesUntilThereIsRoomAndGoesOnWithoutARestart) {
  testing::Rounds rounds("BENCHWARDEN_FULL_DISKS", 12);
  int refused = 0;
  while (rounds.next()) {
    clock_.set({clock_.now().ms + 2 * base::kDayMs});  // what waits for an entry goes after one
    disk_.limit_to(disk_.bytes_used() + static_cast<std::int64_t>(rounds.random()() % 60'000));
    const int now = use_all(3);
    EXPECT_GT(disk_.hits(), 0) << "it was never full" << rounds.where();
    EXPECT_GT(now, 0) << rounds.where();
    refused += now;
    disk_.repair();
    EXPECT_EQ(use_all(1), 0) << "there is room again" << rounds.where();
    EXPECT_EQ(book_->head().size, recorded_.load()) << rounds.where();
    ASSERT_FALSE(HasFailure()) << rounds.where();
  }
  const auto report = verified();
  EXPECT_TRUE(report.faults.empty()) << report.faults[0].what;
  close();
  open();
  EXPECT_EQ(book_->head().size, recorded_.load());
  std::cout << "full disks: " << rounds.number() + 1 << ", refusals " << refused << ", recorded "
            << recorded_ << '\n';
}

TEST_F(FullDisk, IsToldAtTheOpeningAndOpensOnceThereIsRoom) {
  close();
  testing::put_files({}, folder());
  int refused = 0;
  for (std::int64_t bytes = 0;; bytes += 1500) {
    testing::put_files({}, folder());
    disk_.limit_to(bytes);
    const auto opened = try_open();
    if (opened.ok()) break;
    ++refused;
    EXPECT_EQ(opened.error().code, ErrorCode::kUnavailable) << opened.error().detail;
    EXPECT_NE(opened.error().detail.find("full"), std::string::npos) << opened.error().detail;
    disk_.repair();
    const auto again = try_open();
    ASSERT_TRUE(again.ok()) << bytes << ": " << again.error().detail;
    EXPECT_TRUE((*again)->append(drain(1)).ok());
  }
  std::cout << "full at opening: " << refused << " refused, each opened once there was room\n";
  EXPECT_GT(refused, 10);
}

}  // namespace
}  // namespace benchwarden
