#include "workshop/admission.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <thread>

#include "workshop/paused_book.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using namespace std::chrono_literals;

constexpr auto kPause = 60ms;       ///< long enough for another entry to overtake, if it could
constexpr auto kGiveUpAfter = 20s;  ///< only a failing test waits so long

Told retirement() {
  return tell("register-change", R"({"thing_class":"container","thing":"w1","act":"retired"})",
              "2026-11-20T11:50:00Z");
}

/// True once it holds; false when it never does.
bool wait_for(const std::function<bool()>& holds) {
  const auto end = std::chrono::steady_clock::now() + kGiveUpAfter;
  while (!holds()) {
    if (std::chrono::steady_clock::now() > end) return false;
    std::this_thread::yield();
  }
  return true;
}

/// Sends `first`; while it stands between judgement and book, sends `second`.
struct Both {
  RecordOutcome first = Faults{};
  RecordOutcome second = Faults{};
};
Both overtaking(const TestWorkshop& workshop, const Told& first, const Told& second) {
  std::atomic<bool> judged{false};
  PausedBook paused(workshop.ports().book, [&](const book::Draft& draft) {
    if (base::format_uuid(draft.content.id) != first.id) return;
    judged = true;
    std::this_thread::sleep_for(kPause);
  });
  const Ports ports = with_book(workshop.ports(), paused);
  Both both;
  std::thread other([&] { both.first = record(ports, kManager, first.json); });
  EXPECT_TRUE(wait_for([&] { return judged.load(); }));
  both.second = record(ports, kManager, second.json);
  other.join();
  return both;
}

TEST(Admission, ARetirementWaitsForTheDrainThatWasJudgedBeforeIt) {
  const TestWorkshop workshop;
  const Both both = overtaking(workshop, drain("w1", "10"), retirement());
  EXPECT_EQ(receipt_of(both.first).seq, 12U);
  EXPECT_THAT(faults_of(both.second), ElementsAre("/fields/thing not_emptied"));
}

TEST(Admission, ADrainWaitsForTheRetirementThatWasJudgedBeforeIt) {
  const TestWorkshop workshop;
  const Both both = overtaking(workshop, retirement(), drain("w1", "10"));
  EXPECT_EQ(receipt_of(both.first).seq, 12U);
  EXPECT_THAT(faults_of(both.second), ElementsAre("/fields/container retired_thing"));
  EXPECT_EQ(workshop.volume_ml("w1"), "0");
}

TEST(Admission, ADrainWaitsForTheSealThatWasJudgedBeforeIt) {
  const TestWorkshop workshop;
  const Told seal = tell("container-change", R"({"container":"w1","container_act":"sealed"})",
                         "2026-11-20T11:50:00Z");
  const Both both = overtaking(workshop, seal, drain("w1", "10"));
  EXPECT_EQ(receipt_of(both.first).seq, 12U);
  EXPECT_THAT(faults_of(both.second), ElementsAre("/fields/container not_in_service"));
}

TEST(Admission, ACorrectionIsJudgedByTheOneBeforeIt) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  const Both both = overtaking(workshop, strike_out(slip), correct(slip, R"({"volume_ml":62})"));
  EXPECT_EQ(receipt_of(both.first).seq, 13U);
  EXPECT_THAT(faults_of(both.second), ElementsAre("/corrects already_struck"));
}

TEST(Admission, DrainsGoInSideBySide) {
  const TestWorkshop workshop;
  std::atomic<int> inside{0};
  std::atomic<int> met{0};
  PausedBook paused(workshop.ports().book, [&](const book::Draft&) {
    ++inside;
    if (wait_for([&] { return inside.load() == 2; })) ++met;
  });
  const Ports ports = with_book(workshop.ports(), paused);
  std::thread other([&] { receipt_of(record(ports, kTechnician, drain("w1", "10").json)); });
  receipt_of(record(ports, kTechnician, drain("w1", "20").json));
  other.join();
  EXPECT_EQ(met, 2) << "each stood between judgement and book while the other did";
  EXPECT_EQ(workshop.volume_ml("w1"), "30");
}

}  // namespace
}  // namespace benchwarden::workshop
