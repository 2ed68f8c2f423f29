#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <iostream>
#include <random>
#include <thread>
#include <vector>

#include "book/book_fixture.h"

namespace benchwarden {
namespace {

using testing::drain;
using testing::id_of;

constexpr int kThreads = 16;

/// What a writer tells its parent once an entry was answered. Shorter than PIPE_BUF, so that
/// records of many threads never mix in the pipe.
struct Told {
  std::uint64_t number = 0;
  std::uint64_t seq = 0;
  base::Sha256Digest leaf_hash{};
};

[[noreturn]] void append_until_killed(const std::filesystem::path& folder, std::uint64_t first,
                                      int pipe) {
  const testing::SmallVocabulary vocabulary;
  const testing::SettableClock clock;
  auto opened = book::Book::open(folder, vocabulary, clock);
  if (!opened.ok()) ::_exit(1);
  book::Book& book = **opened;
  std::vector<std::thread> threads;
  for (std::uint64_t thread = 0; thread < kThreads; ++thread) {
    threads.emplace_back([&book, pipe, thread, first] {
      for (std::uint64_t number = first + thread;; number += kThreads) {
        auto receipt = book.append(drain(number));
        if (!receipt.ok()) ::_exit(2);
        const Told told{number, receipt->seq, receipt->leaf_hash};
        if (::write(pipe, &told, sizeof told) != sizeof told) ::_exit(3);
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  ::_exit(4);
}

/// Reads until `enough` answers came, kills, and reads what the pipe still holds.
std::vector<Told> answers_of(pid_t child, int pipe, std::size_t enough,
                             std::chrono::microseconds then) {
  std::vector<Told> answers;
  Told told;
  while (::read(pipe, &told, sizeof told) == sizeof told) {
    answers.push_back(told);
    if (answers.size() != enough) continue;
    std::this_thread::sleep_for(then);
    ::kill(child, SIGKILL);
  }
  return answers;
}

class SuddenDeath : public testing::BookTest {
 protected:
  void expect_in_book(const Told& told) {
    auto entry = book_->entry(id_of(told.number));
    ASSERT_TRUE(entry.ok()) << "answered entry " << told.number << " is gone";
    EXPECT_EQ(entry->seq, told.seq);
    EXPECT_EQ(*book_->leaf_hash(told.seq), told.leaf_hash);
  }
  /// One life of a writing process; returns its answers.
  std::vector<Told> live_and_die(std::uint64_t first, std::mt19937_64& random) {
    std::array<int, 2> pipe{};
    EXPECT_EQ(::pipe(pipe.data()), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      ::close(pipe[0]);
      append_until_killed(folder(), first, pipe[1]);
    }
    ::close(pipe[1]);
    const auto answers =
        answers_of(child, pipe[0], 1 + random() % 200, std::chrono::microseconds(random() % 2000));
    ::close(pipe[0]);
    int status = 0;
    EXPECT_EQ(::waitpid(child, &status, 0), child);
    EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL)
        << "ended by itself: " << status;
    return answers;
  }
};

TEST_F(SuddenDeath, LeavesEveryAnsweredEntryInTheBookOnce) {
  const std::uint64_t seed = std::random_device{}();
  std::cout << "seed " << seed << '\n';
  std::mt19937_64 random(seed);
  std::vector<Told> answered;
  constexpr int kRounds = 20;
  for (int round = 0; round < kRounds; ++round) {
    const auto first = 1 + static_cast<std::uint64_t>(round) * 1'000'000;
    const auto answers = live_and_die(first, random);
    answered.insert(answered.end(), answers.begin(), answers.end());
    open();
    ASSERT_NE(book_, nullptr) << "round " << round;
    EXPECT_GE(book_->head().size, answered.size());
    for (const Told& told : answers) expect_in_book(told);
    close();
    const auto report = verified();
    ASSERT_TRUE(report.faults.empty()) << "round " << round << ": " << report.faults[0].what;
  }
  open();
  for (const Told& told : answered) expect_in_book(told);
  std::cout << answered.size() << " answered entries over " << kRounds << " deaths\n";
  EXPECT_GE(answered.size(), static_cast<std::size_t>(kRounds));
}

TEST_F(SuddenDeath, AnEntrySentAgainAfterwardsIsThereOnce) {
  std::mt19937_64 random(7);
  const auto answers = live_and_die(1, random);
  ASSERT_FALSE(answers.empty());
  open();
  const std::uint64_t size = book_->head().size;
  for (const Told& told : answers) {
    auto receipt = book_->append(drain(told.number));
    ASSERT_TRUE(receipt.ok());
    EXPECT_TRUE(receipt->already_there);
    EXPECT_EQ(receipt->seq, told.seq);
  }
  EXPECT_EQ(book_->head().size, size);
}

}  // namespace
}  // namespace benchwarden
