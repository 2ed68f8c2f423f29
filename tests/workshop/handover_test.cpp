// The list of collections, and what to hand over next.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/collections.h"
#include "workshop/proposal.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

Told stage(const std::string& collection, const std::string& fields,
           const std::string& occurred_at = kNow) {
  return tell("collection", R"({"collection":")" + collection + R"(","stage":)" + fields + "}",
              occurred_at);
}

std::string listed(const TestWorkshop& workshop, const std::string& path) {
  return value_at(*show_collections(workshop.ports()), "collections/" + path);
}

std::string proposed(const TestWorkshop& workshop, const std::string& path) {
  return value_at(*show_proposal(workshop.ports()), path);
}

TEST(CollectionList, TellsHowFarEachIs) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "4000", "2026-11-02T09:00:00Z"));
  workshop.enter(drain("w2", "2000", "2026-11-02T09:00:00Z"));
  workshop.enter(
      stage("c1",
            R"("planned","carrier":"k1","planned_date":"2026-11-19","loads":[)"
            R"({"container":"w1","volume_ml":4000},{"container":"w2","volume_ml":2000}])",
            "2026-11-10T09:00:00Z"));
  EXPECT_EQ(listed(workshop, "0/stage"), R"("planned")");
  EXPECT_EQ(listed(workshop, "0/day"), R"("2026-11-19")");
  EXPECT_EQ(listed(workshop, "0/loads/1/volume_ml"), "2000");
  EXPECT_EQ(listed(workshop, "0/left_behind"), "[]");

  workshop.enter(
      stage("c1",
            R"("taken","carrier":"k1","document_number":"D1","refused":"no label on W2",)"
            R"("loads":[{"container":"w1","volume_ml":3000}])",
            "2026-11-18T09:00:00Z"));
  EXPECT_EQ(listed(workshop, "0/day"), R"("2026-11-18")");
  EXPECT_EQ(listed(workshop, "0/documents"),
            R"([{"number":"D1","taken_at":"2026-11-18T10:00:00+01:00","returned_at":null}])");
  EXPECT_EQ(listed(workshop, "0/loads/0/logged_kg"), "2.61");  // 3 L · 870 kg/m³
  EXPECT_EQ(listed(workshop, "0/loads/0/weighed_kg"), "null");
  EXPECT_EQ(listed(workshop, "0/left_behind/0/container"), R"("w2")");

  workshop.enter(stage("c1", R"("document-returned","document_number":"D1")"));
  workshop.enter(stage("c1", R"("weighed","loads":[{"container":"w1","mass_kg":2.5}])"));
  EXPECT_EQ(listed(workshop, "0/documents/0/returned_at"), R"("2026-11-20T13:00:00+01:00")");
  EXPECT_EQ(listed(workshop, "0/loads/0/difference_kg"), "-0.11");
  EXPECT_EQ(listed(workshop, "0/entries"), "[14,15,16,17]");
}

// 5 % of 8.7 kg and 1 kg: the rule own.weighed-difference.
TEST(CollectionList, BearsTheFindingsAboutEach) {
  const TestWorkshop workshop;
  for (int i = 0; i < 5; ++i) workshop.enter(drain("w1", "2000", "2026-11-02T09:00:00Z"));
  workshop.enter(stage("c1", R"("taken","carrier":"k1","document_number":"D1",)"
                             R"("loads":[{"container":"w1","volume_ml":10000}])"));
  EXPECT_EQ(listed(workshop, "0/findings"), "[]");
  workshop.enter(stage("c1", R"("weighed","loads":[{"container":"w1","mass_kg":7.6}])"));
  EXPECT_EQ(listed(workshop, "0/findings/0/rule"), R"("own.weighed-difference")");
  EXPECT_EQ(listed(workshop, "0/loads/0/difference_kg"), "-1.1");
}

std::string plan_of(const std::string& loads) {
  return R"("planned","planned_date":"2026-12-01","loads":[)" + loads + "]";
}

// The order in the day is that of the entries.
TEST(CollectionList, HoldsToTheLastPlan) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "2000"));
  workshop.enter(stage("c1", plan_of(R"({"container":"w1","volume_ml":2000},)"
                                     R"({"container":"w2","volume_ml":2000})")));
  workshop.enter(stage("c1", plan_of(R"({"container":"w1","volume_ml":1000})")));
  EXPECT_EQ(listed(workshop, "0/loads/0/container"), R"("w1")");
  EXPECT_EQ(listed(workshop, "0/loads/0/volume_ml"), "1000");
  EXPECT_EQ(listed(workshop, "0/loads/1"), "");
  workshop.enter(stage("c1", R"("taken","carrier":"k1","document_number":"D1",)"
                             R"("loads":[{"container":"w1","volume_ml":1000}])"));
  EXPECT_EQ(listed(workshop, "0/left_behind"), "[]");
}

TEST(CollectionList, TellsWhatWasRefusedAsAWhole) {
  const TestWorkshop workshop;
  workshop.enter(stage("c1", plan_of(R"({"container":"w1","volume_ml":2000})")));
  workshop.enter(stage("c1", R"("not-taken","refused":"no label")"));
  EXPECT_EQ(listed(workshop, "0/stage"), R"("not-taken")");
  EXPECT_EQ(listed(workshop, "0/documents"), "[]");
  EXPECT_EQ(listed(workshop, "0/left_behind/0/container"), R"("w1")");
  workshop.enter(stage("c1", plan_of(R"({"container":"w1","volume_ml":2000})")));
  EXPECT_EQ(listed(workshop, "0/stage"), R"("planned")") << "agreed anew";
}

// A tablet that was offline dates what was taken before a plan that is in the book by then.
TEST(CollectionList, TurnsNoStageBackByAPlan) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "2000", "2026-11-20T09:00:00Z"));
  workshop.enter(stage("c1", plan_of(R"({"container":"w1","volume_ml":2000})")));
  workshop.enter(stage("c1",
                       R"("taken","carrier":"k1","document_number":"D1",)"
                       R"("loads":[{"container":"w1","volume_ml":2000}])",
                       "2026-11-20T10:00:00Z"));
  EXPECT_EQ(listed(workshop, "0/stage"), R"("taken")");
}

TEST(CollectionList, HasTheLatestDayFirst) {
  const TestWorkshop workshop;
  workshop.enter(stage("c1", R"("planned","planned_date":"2026-12-01")"));
  workshop.enter(stage("c2", R"("planned","planned_date":"2026-12-09")"));
  workshop.enter(stage("c3", R"("planned","planned_date":"2026-11-24")"));
  EXPECT_EQ(listed(workshop, "0/collection"), R"("c2")");
  EXPECT_EQ(listed(workshop, "1/collection"), R"("c1")");
  EXPECT_EQ(listed(workshop, "2/planned_for"), R"("2026-11-24")");
}

/// 20 L in four drains on each Monday and Thursday of the four weeks to 19 November: 160 L.
void fill(const TestWorkshop& workshop, const std::string& container) {
  for (const char* day : {"10-26", "10-29", "11-02", "11-05", "11-09", "11-12", "11-16", "11-19"}) {
    for (int i = 0; i < 4; ++i) {
      workshop.enter(drain(container, "5000", "2026-" + std::string(day) + "T09:00:00Z"));
    }
  }
}

TEST(Proposal, SaysWhyWhereThereIsNoForecast) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1000", "2026-11-19T09:00:00Z"));
  EXPECT_EQ(proposed(workshop, "handovers"), "[]");
  EXPECT_EQ(proposed(workshop, "undated/0/container"), R"("w1")");
  EXPECT_THAT(proposed(workshop, "undated/0/sentence"),
              ::testing::HasSubstr("fewer than four weeks"));
  EXPECT_EQ(value_at(workshop.level("w1"), "forecast/none_because"), R"("too-few-days")");
  EXPECT_EQ(value_at(workshop.level("w1"), "forecast/median"), "null");
}

// On 23 November, a Monday, w1 holds 160 of 184.5 L and takes 40 L a week: 24.5 L are left.
TEST(Proposal, TellsTheDayTheAmountAndTheReason) {
  TestWorkshop workshop;
  fill(workshop, "w1");
  workshop.clock.set(at("2026-11-23T08:00:00Z"));
  const base::Json forecast = *workshop.level("w1").find("forecast");
  EXPECT_EQ(value_at(forecast, "none_because"), "null");
  EXPECT_EQ(value_at(forecast, "a_day_ml"), "5714.286");       // 40 L / 7
  EXPECT_EQ(value_at(forecast, "median"), R"("2026-11-28")");  // 4.3 days, rounded up
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/container"), R"("w1")");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/now_ml"), "160000");
  EXPECT_EQ(proposed(workshop, "handovers/0/day"), value_at(forecast, "earliest_95"));
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/reasons/0/rule"), R"("own.handover")");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/planned_in"), "[]");
  workshop.enter(stage("c9",
                       R"("planned","planned_date":"2026-11-25",)"
                       R"("loads":[{"container":"w1","volume_ml":160000}])",
                       "2026-11-23T08:00:00Z"));
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/planned_in"), R"(["c9"])");
}

TEST(Proposal, PutsTogetherWhatIsDueWithinTheWindow) {
  TestWorkshop workshop;
  fill(workshop, "w1");
  workshop.enter(drain("w2", "1000", "2026-10-01T09:00:00Z"));
  workshop.clock.set(at("2026-11-23T08:00:00Z"));
  EXPECT_EQ(proposed(workshop, "window_days"), "14");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/1"), "") << "one litre in w2 is no reason";
  EXPECT_EQ(proposed(workshop, "undated/0/container"), R"("w2")");
  EXPECT_EQ(proposed(workshop, "undated/1"), "") << "the empty bin and drum are left out";
}

TEST(Proposal, TakesAContainerBeyondItsLimitToday) {
  TestWorkshop workshop;
  for (int i = 0; i < 10; ++i) {
    workshop.enter(tell("oil-drained", R"({"container":"w2","volume_ml":19000})",
                        "2026-11-19T09:00:00Z", R"(,"confirmed":["volume_ml"])"));
  }
  EXPECT_EQ(proposed(workshop, "handovers/0/day"), R"("2026-11-20")");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/container"), R"("w2")");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/expected_ml"), "190000");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/forecast/none_because"), R"("at-limit")");
  EXPECT_EQ(proposed(workshop, "handovers/0/loads/0/reasons/0/rule"), R"("own.working-limit")");
}

}  // namespace
}  // namespace benchwarden::workshop
