#include "base/gate.h"

#include <gtest/gtest.h>

#include <atomic>
#include <thread>
#include <vector>

namespace benchwarden::base {
namespace {

using std::chrono::milliseconds;
constexpr milliseconds kLong{60'000};

void until_waiting(const Gate& gate, int count) {
  while (gate.waiting() < count) std::this_thread::yield();
}

TEST(Gate, LetsInNoMoreThanItsNumberAndTurnsAwayWhoWaitedTooLong) {
  Gate gate({2, 1, milliseconds(20)});
  auto first = gate.enter();
  const auto second = gate.enter();
  ASSERT_TRUE(first && second);
  EXPECT_FALSE(gate.enter().has_value());
  first.reset();
  EXPECT_TRUE(gate.enter().has_value());
  EXPECT_EQ(gate.most_inside(), 2);
}

TEST(Gate, LetsInOneWhoWaitsWhenAPlaceComesFree) {
  Gate gate({1, 1, kLong});
  auto held = gate.enter();
  std::atomic<bool> got = false;
  std::thread waiter([&] { got = gate.enter().has_value(); });
  until_waiting(gate, 1);
  held.reset();
  waiter.join();
  EXPECT_TRUE(got);
  EXPECT_EQ(gate.waiting(), 0);
}

TEST(Gate, TurnsAwayAtOnceWhenTheLineIsFull) {
  Gate gate({1, 1, kLong});
  auto held = gate.enter();
  std::thread waiter([&] { EXPECT_TRUE(gate.enter().has_value()); });
  until_waiting(gate, 1);
  EXPECT_FALSE(gate.enter().has_value());
  held.reset();
  waiter.join();
}

TEST(Gate, ClosedTurnsAwayWhoWaitsAndWhoComes) {
  Gate gate({1, 2, kLong});
  auto held = gate.enter();
  std::atomic<int> turned_away = 0;
  const auto try_it = [&] {
    if (!gate.enter()) ++turned_away;
  };
  std::thread one(try_it);
  std::thread two(try_it);
  until_waiting(gate, 2);
  gate.close();
  one.join();
  two.join();
  EXPECT_EQ(turned_away, 2);
  held.reset();
  EXPECT_FALSE(gate.enter().has_value());
}

TEST(Gate, NeverExceedsItsNumberUnderPressure) {
  Gate gate({2, 8, kLong});
  std::atomic<int> inside = 0;
  std::atomic<int> too_many = 0;
  std::vector<std::thread> threads;
  for (int t = 0; t < 8; ++t) {
    threads.emplace_back([&] {
      for (int i = 0; i < 200; ++i) {
        const auto place = gate.enter();
        if (!place || ++inside > 2) ++too_many;
        --inside;
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(too_many, 0);
  EXPECT_LE(gate.most_inside(), 2);
}

}  // namespace
}  // namespace benchwarden::base
