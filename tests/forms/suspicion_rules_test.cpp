#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string drained_suspecting(const std::string& suspected, const std::string& more = "",
                               const std::string& container = "w1") {
  return submit("oil-drained",
                R"({"container":")" + container + R"(","volume_ml":60,"contamination":")" +
                    suspected + R"("})",
                more);
}

TEST(SuspicionRules, WantWhatMakesTheWholeContainerContaminatedConfirmed) {
  EXPECT_THAT(refusals(drained_suspecting("none"), World()), IsEmpty());
  for (const char* suspected : {"water", "solvent", "chlorinated", "glycol", "unknown"}) {
    EXPECT_THAT(refusals(drained_suspecting(suspected), World()),
                ElementsAre("/fields/contamination needs_confirmation"))
        << suspected;
  }
  EXPECT_THAT(refusals(drained_suspecting("water", R"(,"confirmed":["contamination"])"), World()),
              IsEmpty());
}

TEST(SuspicionRules, AskNothingWhereTheStreamIsOfThatByTheRegister) {
  World world;
  world.things["stream/oil"].attributes = {{"counted_by", entries::Code{"volume"}},
                                           {"halogenated", entries::Code{"yes"}}};
  EXPECT_THAT(refusals(drained_suspecting("chlorinated"), world), IsEmpty());
  EXPECT_THAT(refusals(drained_suspecting("water"), world),
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
  world.record(drained_suspecting("water", R"(,"confirmed":["contamination"])"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":61})"), world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","contamination":"glycol"})"), world),
              ElementsAre("/fields/contamination needs_confirmation"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","container":"w2"})"), world), IsEmpty())
      << "the register does not tell what w2 is for";
  world.things["container/w2"].attributes = {{"stream", entries::Id{"oil"}}};
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","container":"w2"})"), world),
              ElementsAre("/fields/contamination needs_confirmation"));
}

TEST(SuspicionRules, WantHalogenatedSolventAmongOtherConfirmed) {
  World world;
  const auto poured = [](const std::string& solvent, const std::string& more = "") {
    return submit("solvent-waste",
                  R"({"container":"w1","volume_ml":60,"solvent":")" + solvent + R"("})", more);
  };
  EXPECT_THAT(refusals(poured("alcohol"), world), IsEmpty());
  EXPECT_THAT(refusals(poured("halogenated"), world),
              ElementsAre("/fields/solvent needs_confirmation"));
  EXPECT_THAT(refusals(poured("halogenated", R"(,"confirmed":["solvent"])"), world), IsEmpty());
  world.things["stream/oil"].attributes = {{"counted_by", entries::Code{"volume"}},
                                           {"halogenated", entries::Code{"yes"}}};
  EXPECT_THAT(refusals(poured("halogenated"), world), IsEmpty());
  world.things["stream/oil"].attributes.back() = {"low_code", entries::Text{"14 06 02"}};
  EXPECT_THAT(refusals(poured("halogenated"), world), IsEmpty()) << "its code says so";
}

TEST(SuspicionRules, GoWithWhatIsPouredFromOneContainerIntoAnother) {
  World world;
  const std::string fields = R"({"from_container":"w2","to_container":"w1","volume_ml":60})";
  EXPECT_THAT(refusals(submit("transfer", fields), world), IsEmpty());
  world.suspicions["w2"] = {{"chlorinated", "Chlorinated solvent"}};
  EXPECT_THAT(refusals(submit("transfer", fields), world),
              ElementsAre("/fields/to_container needs_confirmation"));
  EXPECT_THAT(refusals(submit("transfer", fields, R"(,"confirmed":["to_container"])"), world),
              IsEmpty());
  world.suspicions["w1"] = world.suspicions["w2"];
  EXPECT_THAT(refusals(submit("transfer", fields), world), IsEmpty()) << "it is there already";
}

}  // namespace
}  // namespace benchwarden::forms
