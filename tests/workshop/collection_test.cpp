#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

Told collection_taken(const std::string& loads, const std::string& occurred_at = kNow) {
  return tell("collection",
              R"({"collection":"c1","stage":"taken","carrier":"k1","document_number":"D1",)"
              R"("loads":[)" +
                  loads + "]}",
              occurred_at);
}

Told collection_stage(const std::string& fields, const std::string& occurred_at = kNow) {
  return tell("collection", R"({"collection":"c1","stage":)" + fields + "}", occurred_at);
}

const char* const kWeighed = R"("weighed","loads":[{"container":"w1","mass_kg":1}])";
const char* const kReturned = R"("document-returned","document_number":"D1")";

TEST(Collection, IsHeldToWhatTheBookSaysOfItsStages) {
  const TestWorkshop workshop;
  EXPECT_THAT(faults_of(workshop.send(collection_stage(kWeighed))),
              ElementsAre("/fields/collection nothing_taken"));
  workshop.enter(drain("w1", "1250"));
  const std::string load =
      workshop.enter(collection_taken(R"({"container":"w1","volume_ml":1250})"));
  EXPECT_THAT(faults_of(workshop.send(collection_taken(R"({"container":"w1","mass_kg":0.01})"))),
              ElementsAre("/fields/loads/0/mass_kg needs_confirmation",
                          "/fields/loads/0/container taken_before"));
  EXPECT_THAT(faults_of(workshop.send(collection_stage(kReturned, "2026-11-20T11:59:59Z"))),
              ElementsAre("/fields/document_number not_yet_taken"));
  const std::string weighed = workshop.enter(collection_stage(kWeighed));
  workshop.enter(collection_stage(kReturned));
  EXPECT_THAT(faults_of(workshop.send(collection_stage(kWeighed))),
              ElementsAre("/fields/loads/0/container weighed_before"));
  EXPECT_THAT(
      faults_of(workshop.send(correct(weighed, R"({"loads":[{"container":"w1","mass_kg":1.1}]})"))),
      IsEmpty())
      << "what is corrected does not stand in its own way";
  EXPECT_THAT(faults_of(workshop.send(strike_out(load))), ElementsAre("/corrects relied_on"));
  EXPECT_THAT(faults_of(workshop.send(correct(load, R"({"document_number":"D2"})"))),
              ElementsAre("/corrects stages_rest"));
}

TEST(Collection, MayBeStruckOutFromItsLastStageOn) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250"));
  const std::string load =
      workshop.enter(collection_taken(R"({"container":"w1","volume_ml":1250})"));
  const std::string weighed = workshop.enter(collection_stage(kWeighed));
  workshop.enter(strike_out(weighed));
  workshop.enter(strike_out(load));
  workshop.enter(collection_taken(R"({"container":"w1","volume_ml":1250})"));
}

TEST(Collection, IsAnsweredTheSameWhenItIsSentAgain) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250"));
  const Told load = collection_taken(R"({"container":"w1","volume_ml":1250})");
  const Told weighed = collection_stage(kWeighed);
  for (const Told& told : {load, weighed}) {
    workshop.enter(told);
    EXPECT_TRUE(receipt_of(workshop.send(told)).already_there);
  }
}

Told transfer(const std::string& amount, const std::string& more = "") {
  return tell("transfer", R"({"from_container":"w1","to_container":"w2",)" + amount + "}", kNow,
              more);
}

TEST(Log, IsAskedBeforeMoreLeavesAContainerThanItHolds) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1000"));
  EXPECT_THAT(faults_of(workshop.send(transfer(R"("volume_ml":1000.001)"))),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  EXPECT_THAT(faults_of(workshop.send(transfer(R"("mass_kg":0.871)"))),
              ElementsAre("/fields/mass_kg needs_confirmation"));
  const std::string first = workshop.enter(transfer(R"("volume_ml":600)"));
  EXPECT_THAT(faults_of(workshop.send(transfer(R"("volume_ml":401)"))),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  workshop.enter(correct(first, R"({"volume_ml":1000})"));
  EXPECT_THAT(faults_of(workshop.send(correct(first, R"({"volume_ml":1001})"))),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  const Told confirmed = transfer(R"("volume_ml":5)", R"(,"confirmed":["volume_ml"])");
  workshop.enter(confirmed);
  EXPECT_EQ(workshop.volume_ml("w1"), "-5");
  EXPECT_TRUE(receipt_of(workshop.send(confirmed)).already_there);
}

TEST(Log, CannotTellWhereSomethingWentInUnmeasured) {
  const TestWorkshop workshop;
  workshop.enter(
      tell("rag-bin", R"({"container":"bin","bin_act":"added","contaminant":"mineral-oil"})"));
  EXPECT_THAT(faults_of(workshop.send(tell(
                  "transfer", R"({"from_container":"bin","to_container":"drum","mass_kg":3})"))),
              IsEmpty());
}

}  // namespace
}  // namespace benchwarden::workshop
