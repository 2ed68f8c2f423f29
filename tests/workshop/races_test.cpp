// What many threads at once do to the book: nothing is accepted against a state that no longer
// holds, nothing accepted is lost, and what is sent twice at once is answered twice alike.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <functional>
#include <thread>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::Each;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr int kThreads = 6;
constexpr int kBefore = 40;       ///< drains that are in before the door is shut
constexpr int kSentMost = 4'000;  ///< no thread sends more, whatever happens
const char* const kEarlier = "2026-11-20T11:50:00Z";

/// Runs `work` in so many threads and waits for all.
void in_threads(int count, const std::function<void(int)>& work) {
  std::vector<std::thread> threads;
  for (int i = 0; i < count; ++i) threads.emplace_back(work, i);
  for (std::thread& thread : threads) thread.join();
}

struct Accepted {
  std::uint64_t seq;
  std::int64_t volume_ml;
};
struct Drained {
  std::vector<Accepted> accepted;
  std::vector<std::string> refused;
};

/// Drains into w1 until it is refused once.
Drained drain_until_refused(const TestWorkshop& workshop, int thread, std::atomic<int>& accepted) {
  Drained drained;
  for (int i = 0; i < kSentMost && drained.refused.empty(); ++i) {
    const std::int64_t volume = 1 + thread * 100 + i % 50;
    const auto outcome = workshop.send(drain("w1", std::to_string(volume)), kTechnician);
    if (const auto* recorded = std::get_if<Recorded>(&outcome)) {
      drained.accepted.push_back({recorded->receipt.seq, volume});
      ++accepted;
    } else {
      drained.refused = faults_of(outcome);
    }
  }
  return drained;
}

TEST(Races, NoDrainIsAcceptedBehindTheSealOfItsContainer) {
  // The drains say that they happened after the seal.
  const Told seal =
      tell("container-change", R"({"container":"w1","container_act":"sealed"})", kEarlier);
  const TestWorkshop workshop;
  std::atomic<int> accepted{0};
  std::vector<Drained> drained(kThreads);
  std::uint64_t shut_at = 0;
  in_threads(kThreads + 1, [&](int thread) {
    if (thread < kThreads) {
      drained[static_cast<std::size_t>(thread)] = drain_until_refused(workshop, thread, accepted);
      return;
    }
    while (accepted < kBefore) std::this_thread::yield();
    shut_at = receipt_of(workshop.send(seal)).seq;
  });
  ASSERT_GT(shut_at, 0U);
  std::int64_t sum = 0;
  std::uint64_t count = 0;
  for (const Drained& by_one : drained) {
    EXPECT_THAT(by_one.refused, ::testing::ElementsAre("/fields/container not_in_service"));
    for (const Accepted& drain : by_one.accepted) {
      EXPECT_LT(drain.seq, shut_at) << "accepted although w1 was shut";
      sum += drain.volume_ml;
      ++count;
    }
  }
  EXPECT_GE(count, static_cast<std::uint64_t>(kBefore));
  EXPECT_EQ(workshop.size(), 11 + count + 1) << "every accepted one is in the book, and no other";
  EXPECT_EQ(workshop.volume_ml("w1"), std::to_string(sum));
}

TEST(Races, OfADrainAndTheRetirementOfItsContainerOneIsTaken) {
  for (int round = 0; round < 10; ++round) {
    const TestWorkshop workshop;
    std::vector<std::vector<std::string>> faults(2);
    const std::vector<Told> told{
        drain("w1", "10"),
        tell("register-change", R"({"thing_class":"container","thing":"w1","act":"retired"})",
             kEarlier)};
    in_threads(2, [&](int thread) {
      const auto n = static_cast<std::size_t>(thread);
      faults[n] = faults_of(workshop.send(told[n]));
    });
    EXPECT_NE(faults[0].empty(), faults[1].empty());
    EXPECT_EQ(workshop.size(), 12U);
  }
}

Told new_room(const std::string& id) {
  return tell("register-change", R"({"thing_class":"room","thing":")" + id +
                                     R"(","act":"added","name":"Room","volume_m3":30})");
}

TEST(Races, OfTwoWhoAddTheSameThingOneIsTold) {
  const TestWorkshop workshop;
  for (int round = 0; round < 25; ++round) {
    const std::string id = "room" + std::to_string(round);
    std::vector<std::vector<std::string>> faults(2);
    in_threads(2, [&](int thread) {
      faults[static_cast<std::size_t>(thread)] = faults_of(workshop.send(new_room(id)));
    });
    EXPECT_EQ(faults[0].size() + faults[1].size(), 1U) << id;
    for (const auto& one : faults) EXPECT_THAT(one, Each("/fields/thing thing_exists"));
  }
  EXPECT_EQ(workshop.size(), 11U + 25U);
}

TEST(Races, OfTwoWhoStrikeOutTheSameEntryOneIsTold) {
  const TestWorkshop workshop;
  for (int round = 0; round < 25; ++round) {
    const std::string entry = workshop.enter(drain("w1", "10"));
    std::vector<std::vector<std::string>> faults(2);
    in_threads(2, [&](int thread) {
      faults[static_cast<std::size_t>(thread)] = faults_of(workshop.send(strike_out(entry)));
    });
    EXPECT_EQ(faults[0].size() + faults[1].size(), 1U);
    for (const auto& one : faults) EXPECT_THAT(one, Each("/corrects already_struck"));
  }
  EXPECT_EQ(workshop.volume_ml("w1"), "0");
}

/// The same submission from many threads at once, as from a tablet that does not wait.
void expect_one_entry(const TestWorkshop& workshop, const Told& told) {
  const std::uint64_t before = workshop.size();
  std::vector<RecordOutcome> outcomes(kThreads, Faults{});
  in_threads(kThreads,
             [&](int thread) { outcomes[static_cast<std::size_t>(thread)] = workshop.send(told); });
  int first_answers = 0;
  for (const RecordOutcome& outcome : outcomes) {
    const auto receipt = receipt_of(outcome);
    EXPECT_EQ(receipt.seq, before + 1);
    if (!receipt.already_there) ++first_answers;
  }
  EXPECT_EQ(first_answers, 1);
  EXPECT_EQ(workshop.size(), before + 1);
}

TEST(Races, WhatIsSentManyTimesAtOnceIsAnsweredAlikeAndStoredOnce) {
  const TestWorkshop workshop;
  for (int round = 0; round < 15; ++round) {
    const Told told = drain("w1", "10");
    expect_one_entry(workshop, told);
    expect_one_entry(workshop, correct(told.id, R"({"volume_ml":20})"));
    expect_one_entry(workshop, strike_out(told.id));
    expect_one_entry(workshop, new_room("room" + std::to_string(round)));
  }
}

TEST(Races, ReadersSeeAStateThatBelongsToOneSizeOfTheBook) {
  const TestWorkshop workshop;
  std::atomic<bool> done{false};
  std::vector<std::string> wrong;
  in_threads(2, [&](int thread) {
    if (thread == 0) {
      for (int i = 0; i < 300; ++i) workshop.enter(drain("w1", "1"));
      done = true;
      return;
    }
    while (!done) {
      const auto state = workshop.ports().live.view();
      const auto drained = static_cast<std::int64_t>(state->size() - 11) * 1'000;
      const std::int64_t level = state->timeline("w1").level();
      if (level != drained)
        wrong.push_back(std::to_string(level) + " at " + std::to_string(drained));
    }
  });
  EXPECT_THAT(wrong, IsEmpty());
}

}  // namespace
}  // namespace benchwarden::workshop
