#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string drained(const std::string& suspected, const std::string& more = "",
                    const std::string& container = "w1") {
  return submit("oil-drained",
                R"({"container":")" + container + R"(","volume_ml":60,"contamination":")" +
                    suspected + R"("})",
                more);
}

TEST(SuspicionRules, WantWhatMakesTheWholeContainerContaminatedConfirmed) {
  EXPECT_THAT(refusals(drained("none"), World()), IsEmpty());
  for (const char* suspected : {"water", "solvent", "chlorinated", "glycol", "unknown"}) {
    EXPECT_THAT(refusals(drained(suspected), World()),
                ElementsAre("/fields/contamination needs_confirmation"))
        << suspected;
  }
  EXPECT_THAT(refusals(drained("water", R"(,"confirmed":["contamination"])"), World()), IsEmpty());
}

TEST(SuspicionRules, AskNothingWhereTheStreamIsOfThatByTheRegister) {
  World world;
  world.things["stream/oil"].attributes = {{"counted_by", entries::Code{"volume"}},
                                           {"halogenated", entries::Code{"yes"}}};
  EXPECT_THAT(refusals(drained("chlorinated"), world), IsEmpty());
  EXPECT_THAT(refusals(drained("water"), world),
              ElementsAre("/fields/contamination needs_confirmation"));
  const std::string spent =
      submit("solvent-waste", R"({"container":"w1","volume_ml":60,"contamination":"solvent"})");
  world.things["stream/oil"].attributes = {{"counted_by", entries::Code{"volume"}},
                                           {"waste_type", entries::Code{"spent-solvent"}}};
  EXPECT_THAT(refusals(spent, world), IsEmpty());
  EXPECT_THAT(refusals(spent, World()), ElementsAre("/fields/contamination needs_confirmation"));
}

TEST(SuspicionRules, JudgeOfACorrectionOnlyWhatItNamesNewly) {
  World world;
  world.record(drained("water", R"(,"confirmed":["contamination"])"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":61})"), world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","contamination":"glycol"})"), world),
              ElementsAre("/fields/contamination needs_confirmation"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","container":"w2"})"), world), IsEmpty())
      << "the register does not tell what w2 is for";
  world.things["container/w2"].attributes = {{"stream", entries::Id{"oil"}}};
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","container":"w2"})"), world),
              ElementsAre("/fields/contamination needs_confirmation"));
}

}  // namespace
}  // namespace benchwarden::forms
