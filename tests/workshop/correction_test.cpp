#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;

TEST(Correction, ChangesTheLevel) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "100"));
  const std::string slip = workshop.enter(drain("w1", "620"), kTechnician);
  EXPECT_EQ(workshop.volume_ml("w1"), "720");
  workshop.enter(correct(slip, R"({"volume_ml":62.5})"), kTechnician);
  EXPECT_EQ(workshop.volume_ml("w1"), "162.5");
}

TEST(Correction, MovesTheAmountToTheOtherContainer) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  workshop.enter(correct(slip, R"({"container":"w2"})"));
  EXPECT_EQ(workshop.volume_ml("w1"), "0");
  EXPECT_EQ(workshop.volume_ml("w2"), "620");
  workshop.enter(correct(slip, R"({"volume_ml":62})"));
  EXPECT_EQ(workshop.volume_ml("w1"), "0");
  EXPECT_EQ(workshop.volume_ml("w2"), "62") << "the second stands on the first";
}

TEST(Correction, ChangesWhatALaterTransferOfEverythingCarried) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620", "2026-11-18T10:00:00Z"));
  workshop.enter(
      tell("transfer", R"({"from_container":"w1","to_container":"w2"})", "2026-11-19T10:00:00Z"));
  EXPECT_EQ(workshop.volume_ml("w2"), "620");
  workshop.enter(correct(slip, R"({"volume_ml":62})"));
  EXPECT_EQ(workshop.volume_ml("w1"), "0");
  EXPECT_EQ(workshop.volume_ml("w2"), "62");
}

TEST(Correction, AStruckOutEntryCountsForNothing) {
  const TestWorkshop workshop;
  const std::string undone = workshop.enter(drain("w1", "620"), kTechnician);
  workshop.enter(strike_out(undone), kTechnician);
  EXPECT_EQ(workshop.volume_ml("w1"), "0");
  EXPECT_EQ(value_at(workshop.level("w1"), "oldest_content_at"), "null");
  EXPECT_THAT(faults_of(workshop.send(strike_out(undone))),
              ElementsAre("/corrects already_struck"));
  EXPECT_THAT(faults_of(workshop.send(correct(undone, R"({"volume_ml":1})"))),
              ElementsAre("/corrects already_struck"));
}

TEST(Correction, UnsealsWhenTheSealIsStruckOut) {
  const TestWorkshop workshop;
  const std::string seal =
      workshop.enter(tell("container-change", R"({"container":"w1","container_act":"sealed"})",
                          "2026-11-20T10:00:00Z"));
  EXPECT_THAT(faults_of(workshop.send(drain("w1", "1"))),
              ElementsAre("/fields/container not_in_service"));
  workshop.enter(strike_out(seal));
  workshop.enter(drain("w1", "1"));
  EXPECT_EQ(value_at(workshop.level("w1"), "sealed"), "false");
}

Told sealed(const std::string& container, const std::string& occurred_at) {
  return tell("container-change",
              R"({"container":")" + container + R"(","container_act":"sealed"})", occurred_at);
}

TEST(Correction, DoesNotGetOilIntoAContainerThatWasSealedByThen) {
  const TestWorkshop workshop;
  const std::string before = workshop.enter(drain("w1", "100", "2026-11-20T09:00:00Z"));
  const std::string after = workshop.enter(drain("w1", "200", "2026-11-20T11:00:00Z"));
  workshop.enter(sealed("w2", "2026-11-20T10:00:00Z"));
  EXPECT_THAT(faults_of(workshop.send(correct(after, R"({"container":"w2"})"))),
              ElementsAre("/fields/container not_in_service"));
  workshop.enter(correct(before, R"({"container":"w2"})"));
  EXPECT_EQ(workshop.volume_ml("w2"), "100");
  workshop.enter(sealed("w1", "2026-11-20T10:30:00Z"));
  workshop.enter(correct(after, R"({"volume_ml":250})"));
  EXPECT_EQ(workshop.volume_ml("w1"), "250") << "what the entry named before is not judged again";
}

TEST(Correction, CannotBeCorrectedItself) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  const std::string correction = workshop.enter(correct(slip, R"({"volume_ml":62})"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(correction))),
              ElementsAre("/corrects unknown_entry"));
}

TEST(Correction, NeedsSomethingToChangeAndAnEntryToName) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(drain("w1", "620"));
  EXPECT_THAT(faults_of(workshop.send(correct(slip, R"({"volume_ml":620})"))),
              ElementsAre("/fields nothing_changed"));
  EXPECT_THAT(faults_of(workshop.send(strike_out("0193619e-0a3b-7c44-8d21-5b0f6c2f1a01"))),
              ElementsAre("/corrects unknown_entry"));
}

TEST(Correction, OfTheRegisterIsTheManagersAlone) {
  const TestWorkshop workshop;
  const std::string change = workshop.enter(
      tell("register-change",
           R"({"thing_class":"container","thing":"w1","act":"changed","location":"Bay 3"})"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(change), kTechnician)),
              ElementsAre("/corrects not_allowed"));
  workshop.enter(strike_out(change));
}

TEST(Correction, AThingThatOtherEntriesNameStaysInTheRegister) {
  const TestWorkshop workshop;
  const auto stream = tell("register-change",
                           R"({"thing_class":"container","thing":"w3","act":"added",
      "name":"Can","stream":"oil","capacity_l":30,"shape":"can","working_limit_percent":90,
      "counts_waste":"yes"})");
  const std::string added = workshop.enter(stream);
  workshop.enter(drain("w3", "5"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(added))), ElementsAre("/corrects relied_on"));
  EXPECT_EQ(workshop.volume_ml("w3"), "5");
}

TEST(Correction, AThingThatNothingNamesCanBeTakenOutOfTheRegister) {
  const TestWorkshop workshop;
  const std::string added = workshop.enter(
      tell("register-change",
           R"({"thing_class":"room","thing":"shed","act":"added","name":"Shed","volume_m3":30})"));
  workshop.enter(strike_out(added));
  EXPECT_EQ(workshop.ports().live.view()->thing("room", "shed"), nullptr);
}

}  // namespace
}  // namespace benchwarden::workshop
