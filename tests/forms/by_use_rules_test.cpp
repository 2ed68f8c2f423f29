#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string opened(const std::string& id) {
  return submit("stuck-part",
                R"({"stuck_part":")" + id +
                    R"(","work_stage":"opened",)"
                    R"("pressure_state":"released","stop_fitted":"yes","guard":"yes",)"
                    R"("eye_protection":"yes","ear_protection":"yes"})");
}

std::string closed(const std::string& id) {
  return submit("stuck-part",
                R"({"stuck_part":")" + id + R"(","work_stage":"closed","outcome":"freed"})");
}

std::string happened(const std::string& id) {
  return submit("event", R"({"event":")" + id + R"(","event_type":"near-miss"})");
}

std::string acted(const std::string& id) {
  return submit("action-closed", R"({"about":"event","event":")" + id +
                                     R"(","what_was_done":"guard fitted","effective":"yes"})");
}

TEST(ByUse, AStuckPartIsOpenedOnceAndClosedOnceAfter) {
  const World world;
  EXPECT_THAT(refusals(opened("s9"), world), IsEmpty());
  EXPECT_THAT(refusals(opened("s1"), world), ElementsAre("/fields/stuck_part id_used"));
  EXPECT_THAT(refusals(closed("s1"), world), IsEmpty());
  EXPECT_THAT(refusals(closed("s9"), world), ElementsAre("/fields/stuck_part not_begun"));
  EXPECT_THAT(refusals(closed("s2"), world), ElementsAre("/fields/stuck_part closed_before"));
}

TEST(ByUse, NothingComesBeforeItsBeginning) {
  World world;
  // The submission is of 08:33:56 UTC.
  world.used["stuck-part/s1"][0].at = base::parse_rfc3339("2026-11-25T08:33:56Z")->instant;
  EXPECT_THAT(refusals(closed("s1"), world), IsEmpty());
  world.used["stuck-part/s1"][0].at.ms += 1;
  EXPECT_THAT(refusals(closed("s1"), world), ElementsAre("/fields/stuck_part not_begun"));
}

TEST(ByUse, AnActionIsAboutAnEventOfTheBook) {
  const World world;
  EXPECT_THAT(refusals(acted("e1"), world), IsEmpty());
  EXPECT_THAT(refusals(acted("e9"), world), ElementsAre("/fields/event not_begun"));
  EXPECT_THAT(refusals(happened("e1"), world), ElementsAre("/fields/event id_used"));
}

TEST(ByUse, AnEventMayHaveSeveralActions) {
  World world;
  world.used["event/e1"].push_back({world.used["event/e1"][0].at, "action-closed", {}});
  EXPECT_THAT(refusals(acted("e1"), world), IsEmpty());
}

TEST(ByUse, ABeginningOthersRestOnStays) {
  World world;
  world.record(happened("e2"));
  const std::string strike = correct(R"({"action":"struck-out"})");
  const std::string rename = correct(R"({"action":"corrected","event":"e3"})");
  EXPECT_THAT(refusals(strike, world), IsEmpty());
  EXPECT_THAT(refusals(rename, world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","event":"e1"})"), world),
              ElementsAre("/fields/event id_used"));
  world.used["event/e2"] = {{world.now(), "action-closed", {}}};
  EXPECT_THAT(refusals(strike, world), ElementsAre("/corrects relied_on"));
  EXPECT_THAT(refusals(rename, world), ElementsAre("/corrects stages_rest"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","event_type":"spill"})"), world),
              IsEmpty());
}

TEST(ByUse, WhatRestsOnABeginningMayBeStruckOut) {
  World world;
  world.record(closed("s1"));
  EXPECT_THAT(refusals(correct(R"({"action":"struck-out"})"), world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","stuck_part":"s2"})"), world),
              ElementsAre("/fields/stuck_part closed_before"));
}

TEST(StuckPart, NeedsAPersonWhoAllowedItWherePressureMayBeLeft) {
  const auto with_pressure = [](const std::string& state, const std::string& more) {
    return submit("stuck-part", R"({"stuck_part":"s9","work_stage":"opened","pressure_state":")" +
                                    state +
                                    R"(","stop_fitted":"yes","guard":"yes",)"
                                    R"("eye_protection":"yes","ear_protection":"yes")" +
                                    more + "}");
  };
  for (const char* state : {"not-known", "trapped"}) {
    EXPECT_THAT(refusals(with_pressure(state, ""), World()),
                ElementsAre("/fields/authorised_by missing"));
    EXPECT_THAT(refusals(with_pressure(state, R"(,"authorised_by":"p1")"), World()), IsEmpty());
  }
  EXPECT_THAT(refusals(with_pressure("trapped", R"(,"authorised_by":"p7")"), World()),
              ElementsAre("/fields/authorised_by unknown_thing"));
}

}  // namespace
}  // namespace benchwarden::forms
