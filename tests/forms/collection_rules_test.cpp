#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string weighed(const std::string& collection, const std::string& containers) {
  return submit("collection", R"({"collection":")" + collection +
                                  R"(","stage":"weighed","loads":[)" + containers + "]}");
}

std::string returned(const std::string& collection, const std::string& number) {
  return submit("collection", R"({"collection":")" + collection +
                                  R"(","stage":"document-returned","document_number":")" + number +
                                  "\"}");
}

std::string taken(const std::string& collection, const std::string& container,
                  const std::string& number = "N 4711") {
  return submit("collection", R"({"collection":")" + collection +
                                  R"(","stage":"taken","carrier":"c1","document_number":")" +
                                  number + R"(","loads":[{"container":")" + container +
                                  R"(","volume_ml":500}]})");
}

entries::Refusal only_refusal(const std::string& submission, const World& world) {
  const auto result = validate(real_catalog(), json(submission), world);
  if (result.ok() || result.error().size() != 1) {
    ADD_FAILURE() << "not refused once: " << submission;
    return {};
  }
  return result.error().front();
}

Surroundings::ToldStage told(entries::CollectionStage stage, const std::string& document,
                             const std::string& container) {
  entries::Takes takes{"c", stage, "", document, {}};
  if (!container.empty()) takes.loads.push_back({container, {}, false});
  return {base::parse_rfc3339("2026-11-24T10:00:00Z")->instant, takes};
}

TEST(CollectionRules, WantSomethingTakenBeforeItsLaterStages) {
  EXPECT_THAT(refusals(weighed("new", R"({"container":"w1","mass_kg":5})"), World()),
              ElementsAre("/fields/collection nothing_taken"));
  EXPECT_THAT(refusals(returned("new", "N 4711"), World()),
              ElementsAre("/fields/collection nothing_taken"));
}

TEST(CollectionRules, WantOfWeighingsOnlyWhatWasTakenInIt) {
  const auto refusal = only_refusal(
      weighed("c", R"({"container":"w1","mass_kg":5},{"container":"w2","mass_kg":5})"), World());
  EXPECT_EQ(refusal.pointer, "/fields/loads/1/container");
  EXPECT_EQ(refusal.code, entries::RefusalCode::kNotInCollection);
  EXPECT_EQ(refusal.accepted, "w1, w3");
}

std::string planned(const std::string& collection, const std::string& day) {
  return submit("collection", R"({"collection":")" + collection +
                                  R"(","stage":"planned","planned_date":")" + day + "\"}");
}

TEST(CollectionRules, WantAWeighingAsMassAndNotBeforeItWent) {
  World world;
  const auto volume = only_refusal(weighed("c", R"({"container":"w1","volume_ml":5})"), world);
  EXPECT_EQ(volume.pointer, "/fields/loads/0/mass_kg");
  EXPECT_EQ(volume.code, entries::RefusalCode::kMissing);
  EXPECT_THAT(refusals(weighed("c", R"({"container":"w1","volume_ml":5,"mass_kg":5})"), world),
              IsEmpty());
  EXPECT_THAT(refusals(weighed("c", R"({"container":"w1"})"), world),
              ElementsAre("/fields/loads/0/volume_ml one_needed"));
  world.collections["c"].push_back(told_taken("c", "N 5", {"w2"}, "2026-11-25T08:33:57Z"));
  const auto early = only_refusal(weighed("c", R"({"container":"w2","mass_kg":5})"), world);
  EXPECT_EQ(early.pointer, "/fields/loads/0/container");
  EXPECT_EQ(early.code, entries::RefusalCode::kNotYetTaken);
  EXPECT_EQ(early.accepted, "2026-11-25T08:33:57Z");
}

TEST(CollectionRules, PlanAheadAndNotOnceSomethingWent) {
  World world;
  EXPECT_THAT(refusals(planned("new", "2026-11-25"), world), IsEmpty());
  const auto past = only_refusal(planned("new", "2026-11-24"), world);
  EXPECT_EQ(past.pointer, "/fields/planned_date");
  EXPECT_EQ(past.code, entries::RefusalCode::kOutOfOrder);
  EXPECT_EQ(past.accepted, "\u2265 2026-11-25");

  const auto after = only_refusal(planned("c", "2026-11-25"), world);
  EXPECT_EQ(after.pointer, "/fields/stage");
  EXPECT_EQ(after.code, entries::RefusalCode::kTakenAlready);
  EXPECT_EQ(after.value, "planned");
  EXPECT_THAT(
      refusals(submit("collection", R"({"collection":"c","stage":"not-taken","refused":"leaks"})"),
               world),
      ElementsAre("/fields/stage taken_already"));
  world.collections["late"] = {told_taken("late", "N 5", {"w2"}, "2026-11-25T08:33:57Z")};
  EXPECT_THAT(refusals(planned("late", "2026-11-25"), world), IsEmpty())
      << "that was before it went";
}

TEST(CollectionRules, JudgeOfACorrectionOnlyTheDayItNames) {
  World world;
  world.record(planned("new", "2026-11-25"));
  world.collections["new"] = {told_taken("new", "N 5", {"w2"}, "2026-11-25T08:40:00Z")};
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","planned_date":"2026-11-24"})"), world),
              ElementsAre("/fields/planned_date out_of_order"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","planned_date":"2026-11-26"})"), world),
              IsEmpty());
}

TEST(CollectionRules, LetAContainerBeTakenAndWeighedOnce) {
  World world;
  EXPECT_THAT(refusals(taken("c", "w1"), world),
              ElementsAre("/fields/loads/0/container taken_before"));
  EXPECT_THAT(refusals(taken("new", "w1"), world), IsEmpty());
  EXPECT_THAT(refusals(weighed("c", R"({"container":"w1","mass_kg":5})"), world), IsEmpty());
  world.collections["c"].push_back(told(entries::CollectionStage::kWeighed, "", "w1"));
  EXPECT_THAT(refusals(weighed("c", R"({"container":"w1","mass_kg":5})"), world),
              ElementsAre("/fields/loads/0/container weighed_before"));
  EXPECT_THAT(refusals(weighed("c", R"({"container":"w3","mass_kg":5})"), world), IsEmpty());
}

TEST(CollectionRules, LetOnlyADocumentComeBackThatWent) {
  World world;
  world.collections["c"].push_back(told_taken("c", "N 5", {"w2"}, "2026-11-25T08:33:57Z"));
  EXPECT_THAT(refusals(returned("c", "N 4711"), world), IsEmpty());
  const auto unknown = only_refusal(returned("c", "N 4712"), world);
  EXPECT_EQ(unknown.pointer, "/fields/document_number");
  EXPECT_EQ(unknown.code, entries::RefusalCode::kUnknownDocument);
  EXPECT_EQ(unknown.accepted, "N 4711, N 5");
  const auto early = only_refusal(returned("c", "N 5"), world);
  EXPECT_EQ(early.pointer, "/fields/document_number");
  EXPECT_EQ(early.code, entries::RefusalCode::kNotYetTaken);
  EXPECT_EQ(early.accepted, "2026-11-25T08:33:57Z");
}

/// The entry kId took w1 under N 4711 in "new"; a world that tells of the later stages given.
class WorldAfter : public World {
 public:
  explicit WorldAfter(const std::vector<ToldStage>& later) {
    record(taken("new", "w1"));
    collections["new"] = later;
  }
};

TEST(CollectionRules, KeepWhatLaterStagesRestOn) {
  const WorldAfter weighed_later({told(entries::CollectionStage::kWeighed, "", "w1")});
  const std::string strike = correct(R"({"action":"struck-out"})");
  EXPECT_THAT(refusals(strike, weighed_later), ElementsAre("/corrects relied_on"));
  EXPECT_THAT(
      refusals(correct(R"({"action":"corrected","loads":[{"container":"w2","volume_ml":5}]})"),
               weighed_later),
      ElementsAre("/corrects stages_rest"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","collection":"other"})"), weighed_later),
              ElementsAre("/corrects stages_rest"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","document_number":"N 9"})"), weighed_later),
              IsEmpty());

  const WorldAfter returned_later(
      {told(entries::CollectionStage::kDocumentReturned, "N 4711", "")});
  EXPECT_THAT(refusals(strike, returned_later), ElementsAre("/corrects relied_on"));
  const auto number =
      only_refusal(correct(R"({"action":"corrected","document_number":"N 9"})"), returned_later);
  EXPECT_EQ(number.code, entries::RefusalCode::kStagesRest);
  EXPECT_EQ(number.accepted, "N 4711");
  EXPECT_THAT(
      refusals(correct(R"({"action":"corrected","loads":[{"container":"w2","volume_ml":5}]})"),
               returned_later),
      IsEmpty());

  EXPECT_THAT(refusals(strike, WorldAfter({})), IsEmpty());
}

TEST(CollectionRules, HoldForCorrectionsToo) {
  const WorldAfter world({told_taken("new", "N 8", {"w2"}, "2026-11-24T10:00:00Z")});
  EXPECT_THAT(
      refusals(correct(R"({"action":"corrected","loads":[{"container":"w2","volume_ml":5}]})"),
               world),
      ElementsAre("/fields/loads/0/container taken_before"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","note":"tank lorry"})"), world), IsEmpty());
}

}  // namespace
}  // namespace benchwarden::forms
