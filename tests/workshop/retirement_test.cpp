#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/surroundings.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Told retire(const std::string& thing_class, const std::string& id) {
  return tell("register-change", R"({"thing_class":")" + thing_class + R"(","thing":")" + id +
                                     R"(","act":"retired"})");
}

Told handled(const std::string& container, const std::string& act) {
  return tell("container-change",
              R"({"container":")" + container + R"(","container_act":")" + act + "\"}");
}

std::string sentence_of(const RecordOutcome& outcome) {
  const auto* faults = std::get_if<Faults>(&outcome);
  return faults == nullptr || faults->empty() ? std::string() : faults->front().sentence;
}

TEST(Retirement, OfAStreamComesAfterThatOfItsContainers) {
  const TestWorkshop workshop;
  EXPECT_EQ(sentence_of(workshop.send(retire("stream", "oil"))),
            "Id: 'oil' is still used by containers. Retire these first: w1, w2.");
  workshop.enter(retire("container", "w1"));
  EXPECT_THAT(sentence_of(workshop.send(retire("stream", "oil"))), HasSubstr("first: w2."));
  const std::string last = workshop.enter(retire("container", "w2"));
  workshop.enter(retire("stream", "oil"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(last))), ElementsAre("/corrects retired_thing"))
      << "its stream is gone";
}

TEST(Retirement, OfAnotherClassIsStruckOutThoughAContainerHasTheSameId) {
  const TestWorkshop workshop;
  workshop.enter(tell("register-change",
                      R"({"thing_class":"cylinder","thing":"w1","act":"added","name":"Nitrogen",)"
                      R"("gas":"nitrogen","water_capacity_l":50,"working_pressure_bar":200})"));
  const std::string retired = workshop.enter(retire("cylinder", "w1"));
  for (const char* container : {"w1", "w2"}) workshop.enter(retire("container", container));
  workshop.enter(retire("stream", "oil"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(retired))), IsEmpty());
}

TEST(Retirement, TheEntryThatAddedAStreamStaysWhileAContainerNamesIt) {
  const TestWorkshop workshop;
  const std::string stream = workshop.enter(
      tell("register-change", R"({"thing_class":"stream","thing":"glycol","act":"added",)"
                              R"("name":"Coolant","low_code":"16 01 14","hazardous":"yes",)"
                              R"("counted_by":"volume"})"));
  workshop.enter(tell("register-change",
                      R"({"thing_class":"container","thing":"g1","act":"added","name":"Can",)"
                      R"("stream":"glycol","capacity_l":20,"working_limit_percent":90,)"
                      R"("counts_waste":"yes"})"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(stream))), ElementsAre("/corrects relied_on"));
}

TEST(Retirement, OfAContainerComesAfterItWasEmptied) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250"));
  EXPECT_EQ(sentence_of(workshop.send(retire("container", "w1"))),
            "Id: by the book 'w1' still holds 1\u202F250\u00A0mL. "
            "Record it emptied or collected first.");
  workshop.enter(handled("w1", "emptied"));
  workshop.enter(retire("container", "w1"));
}

TEST(Retirement, OfAContainerComesAfterAllOfItWasCollected) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250"));
  workshop.enter(tell("collection", R"({"collection":"c1","stage":"taken","carrier":"k1",)"
                                    R"("document_number":"D1",)"
                                    R"("loads":[{"container":"w1","volume_ml":1250}]})"));
  workshop.enter(retire("container", "w1"));
}

TEST(Retirement, KnowsOfContentThatWasNotMeasured) {
  const TestWorkshop workshop;
  const std::string rags = workshop.enter(
      tell("rag-bin", R"({"container":"bin","bin_act":"added","contaminant":"mineral-oil"})"));
  EXPECT_THAT(sentence_of(workshop.send(retire("container", "bin"))), HasSubstr("holds ? g."));
  workshop.enter(strike_out(rags));
  EXPECT_THAT(faults_of(workshop.send(retire("container", "bin"))), IsEmpty());
}

TEST(Retirement, DatedAheadHoldsFromWhenItWasRecorded) {
  const TestWorkshop workshop;
  const std::string ahead = "2026-11-20T12:09:00Z";
  workshop.enter(tell("register-change",
                      R"({"thing_class":"container","thing":"w1","act":"retired"})", ahead));
  workshop.enter(tell("container-change", R"({"container":"w2","container_act":"sealed"})", ahead));
  EXPECT_THAT(faults_of(workshop.send(drain("w1", "5"))),
              ElementsAre("/fields/container retired_thing"));
  EXPECT_THAT(faults_of(workshop.send(drain("w2", "5"))),
              ElementsAre("/fields/container not_in_service"));
  EXPECT_THAT(faults_of(workshop.send(drain("w2", "5", "2026-11-20T11:59:59Z"))), IsEmpty())
      << "it happened before";
}

TEST(Retirement, AWithdrawalDatedAheadHoldsFromWhenItWasRecorded) {
  const TestWorkshop workshop;
  workshop.enter(tell("cylinder-check",
                      R"({"cylinder":"n1","gauge_pressure_bar":150,"result":"withdrawn"})",
                      "2026-11-20T12:09:00Z"));
  const auto thing = BookSurroundings(workshop.ports(), kManager).thing("cylinder", "n1");
  ASSERT_TRUE(thing.has_value());
  EXPECT_EQ(thing->out_of_use_since, at(kNow));
}

TEST(Retirement, IsNotForTheSite) {
  const TestWorkshop workshop;
  EXPECT_THAT(faults_of(workshop.send(retire("workshop", "site"))),
              ElementsAre("/fields/act unknown_code"));
  const auto first = workshop.ports().book.entry(std::uint64_t{1});
  ASSERT_TRUE(first.ok());
  ASSERT_EQ(first->content.kind, "register-change");
  EXPECT_THAT(faults_of(workshop.send(strike_out(base::format_uuid(first->content.id)))),
              ElementsAre("/corrects relied_on"));
}

TEST(Retirement, TheSiteStaysEvenWhileNothingElseIsInTheBook) {
  const TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  const std::string site = workshop.enter(
      tell("register-change", R"({"thing_class":"workshop","thing":"site","act":"added",)"
                              R"("name":"S","address":"A","time_zone":"Europe/Berlin"})"));
  EXPECT_THAT(faults_of(workshop.send(strike_out(site))), ElementsAre("/corrects relied_on"));
}

}  // namespace
}  // namespace benchwarden::workshop
