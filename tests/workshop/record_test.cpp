#include "workshop/record.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const char* const kEarlier = "2026-11-20T11:50:00Z";

std::string retired(const std::string& container) {
  return R"({"thing_class":"container","thing":")" + container + R"(","act":"retired"})";
}

TEST(Record, AnswersWithNumberTimeAndHashOfWhatItStored) {
  const TestWorkshop workshop;
  const std::uint64_t before = workshop.size();
  const Told told = drain("w1", "62.5", "2026-11-20T12:40:00+01:00");
  const auto receipt = receipt_of(workshop.send(told, kTechnician));
  EXPECT_EQ(receipt.seq, before + 1);
  EXPECT_EQ(receipt.recorded_at, at(kNow));
  EXPECT_FALSE(receipt.already_there);
  EXPECT_EQ(receipt.leaf_hash, *workshop.ports().book.leaf_hash(receipt.seq));
  const auto entry = workshop.ports().book.entry(receipt.seq);
  ASSERT_TRUE(entry.ok());
  EXPECT_EQ(base::format_uuid(entry->content.id), told.id);
  EXPECT_EQ(entry->signature.person, "p3");
  EXPECT_TRUE(entry->signature.person_verified);
  EXPECT_EQ(base::format_rfc3339(entry->content.occurred_at), "2026-11-20T12:40:00+01:00");
  EXPECT_EQ(workshop.volume_ml("w1"), "62.5") << "the state is caught up before the answer";
}

TEST(Record, KeepsThatThePersonWasNotVerified) {
  const TestWorkshop workshop;
  const auto receipt = receipt_of(workshop.send(drain("w1", "5"), {"p9", "technician", false}));
  EXPECT_FALSE(workshop.ports().book.entry(receipt.seq)->signature.person_verified);
}

TEST(Record, WaitsForThePinWhereTheFormSaysSo) {
  const TestWorkshop workshop;
  const auto outcome = [&](const Told& told, bool is_confirmed) {
    return record(workshop.ports(), Sender{kManager, std::nullopt, is_confirmed}, told.json);
  };
  const auto waits = [&](const Told& told) {
    return std::holds_alternative<ConfirmationNeeded>(outcome(told, false));
  };
  const auto hold = [](const char* act) {
    return tell("hold", std::string(R"({"hold":")") + act +
                            R"(","authority":"Court of Auburg","scope":"All of 2025"})");
  };
  const Told placed = hold("placed");
  EXPECT_FALSE(waits(placed));
  const std::uint64_t size = workshop.size();
  EXPECT_TRUE(waits(hold("lifted")));
  EXPECT_TRUE(waits(strike_out(placed.id)));
  EXPECT_EQ(workshop.size(), size);
  EXPECT_EQ(receipt_of(outcome(hold("lifted"), true)).seq, size + 1);
}

/// Sends it again and expects the answer of the first time and no further entry.
void expect_same_answer(const TestWorkshop& workshop, const Told& told,
                        const book::Receipt& first) {
  const std::uint64_t size = workshop.size();
  const auto again = receipt_of(workshop.send(told));
  EXPECT_TRUE(again.already_there);
  EXPECT_EQ(again.seq, first.seq);
  EXPECT_EQ(again.recorded_at, first.recorded_at);
  EXPECT_EQ(again.leaf_hash, first.leaf_hash);
  EXPECT_EQ(workshop.size(), size);
}

TEST(Record, AnswersAResendAsTheFirstTime) {
  TestWorkshop workshop;
  const Told told = drain("w1", "620");
  const auto first = receipt_of(workshop.send(told));
  workshop.clock.set(at("2026-11-21T08:00:00Z"));
  expect_same_answer(workshop, told, first);
  EXPECT_EQ(workshop.volume_ml("w1"), "620");
}

TEST(Record, AnswersAResendAfterTheContainerWasRetired) {
  const TestWorkshop workshop;
  const Told told = drain("w1", "620");
  const auto first = receipt_of(workshop.send(told));
  workshop.enter(tell("container-change", R"({"container":"w1","container_act":"emptied"})"));
  workshop.enter(tell("register-change", retired("w1"), kEarlier));
  EXPECT_THAT(faults_of(workshop.send(drain("w1", "1"))),
              ElementsAre("/fields/container retired_thing"));
  expect_same_answer(workshop, told, first);
}

TEST(Record, AnswersAResendAfterTheEntryWasCorrectedAndStruckOut) {
  const TestWorkshop workshop;
  const Told told = drain("w1", "620");
  const auto first = receipt_of(workshop.send(told));
  const Told correction = correct(told.id, R"({"volume_ml":62})");
  const auto corrected = receipt_of(workshop.send(correction));
  expect_same_answer(workshop, told, first);
  expect_same_answer(workshop, correction, corrected);
  const Told undone = strike_out(told.id);
  const auto struck = receipt_of(workshop.send(undone));
  expect_same_answer(workshop, told, first);
  expect_same_answer(workshop, correction, corrected);
  expect_same_answer(workshop, undone, struck);
}

TEST(Record, AnswersAResentCorrectionAfterALaterOneTookAwayWhatItWasAbout) {
  const TestWorkshop workshop;
  const std::string rags = workshop.enter(
      tell("rag-bin",
           R"({"container":"bin","bin_act":"added","contaminant":"mineral-oil","mass_kg":1})"));
  const Told correction = correct(rags, R"({"mass_kg":2.5})");
  const auto corrected = receipt_of(workshop.send(correction));
  // A check at close has no mass, so the first correction's field no longer belongs to the entry.
  workshop.enter(correct(rags, R"({"bin_act":"checked-at-close","lid_shut":"yes"})"));
  expect_same_answer(workshop, correction, corrected);
}

TEST(Record, AnswersAResentRegisterEntryAlthoughTheThingIsThereNow) {
  const TestWorkshop workshop;
  const Told told = tell("register-change",
                         R"({"thing_class":"stream","thing":"solvent","act":"added",
                             "name":"Spent solvent","low_code":"14 06 03","hazardous":"yes",
                             "counted_by":"volume"})");
  const auto first = receipt_of(workshop.send(told));
  expect_same_answer(workshop, told, first);
}

TEST(Record, AnswersAResendAfterARestart) {
  TestWorkshop workshop;
  const Told told = drain("w1", "620");
  const auto first = receipt_of(workshop.send(told));
  workshop.open();
  expect_same_answer(workshop, told, first);
}

TEST(Record, RefusesTheSameIdWithOtherContent) {
  const TestWorkshop workshop;
  const Told told = drain("w1", "620");
  receipt_of(workshop.send(told));
  for (const Told& other :
       {drain("w1", "621"), drain("w2", "620"), drain("w1", "620", kEarlier), drain("w1", "-1"),
        tell("level-reading", R"({"container":"w1","reading_method":"dip","volume_ml":620})")}) {
    const auto outcome = workshop.send(under_id(other, told.id));
    ASSERT_TRUE(std::holds_alternative<base::Error>(outcome)) << base::write_json(other.json);
    EXPECT_EQ(std::get<base::Error>(outcome).code, base::ErrorCode::kConflict);
    EXPECT_THAT(std::get<base::Error>(outcome).detail, HasSubstr("no. 12"));
  }
  EXPECT_EQ(workshop.size(), 12U);
}

TEST(Record, RefusesTheSameIdWithAFaultBesideTheSameContent) {
  const TestWorkshop workshop;
  const std::string fields = R"({"container":"w1","volume_ml":620)";
  const Told told = tell("oil-drained", fields + "}");
  receipt_of(workshop.send(told));
  for (const Told& other : {tell("oil-drained", fields + "}", kNow, R"(,"urgent":true)"),
                            tell("oil-drained", fields + R"(,"colour":"red"})"),
                            tell("oil-drained", fields + R"(,"fluid":"tar"})"),
                            tell("oil-drained", fields + "}", kNow, R"(,"reason":"again")"),
                            tell("oil-drained", fields + "}", kNow, R"(,"confirmed":["nix"])")}) {
    const auto outcome = workshop.send(under_id(other, told.id));
    ASSERT_TRUE(std::holds_alternative<base::Error>(outcome)) << base::write_json(other.json);
    EXPECT_EQ(std::get<base::Error>(outcome).code, base::ErrorCode::kConflict);
  }
}

TEST(Record, AnswersAResentChangeThatNamesAFixedAttributeAgain) {
  const TestWorkshop workshop;
  const Told change =
      tell("register-change", R"({"thing_class":"container","thing":"w1","act":"changed",)"
                              R"("stream":"oil","location":"Bay 3"})");
  expect_same_answer(workshop, change, receipt_of(workshop.send(change)));
  const Told retired =
      tell("register-change", R"({"thing_class":"container","thing":"w1","act":"retired"})");
  expect_same_answer(workshop, retired, receipt_of(workshop.send(retired)));
}

TEST(Record, NamesEveryFaultInWords) {
  const TestWorkshop workshop;
  const std::uint64_t size = workshop.size();
  const auto outcome =
      workshop.send(tell("oil-drained", R"({"container":"w9","volume_ml":30000,"colour":"red"})",
                         "2026-11-20T13:00:00Z", R"(,"urgent":true)"));
  EXPECT_THAT(faults_of(outcome),
              ElementsAre("/occurred_at in_future", "/urgent unknown_member",
                          "/fields/container unknown_thing", "/fields/volume_ml impossible",
                          "/fields/colour unknown_field"));
  for (const Fault& fault : std::get<Faults>(outcome)) {
    EXPECT_THAT(fault.sentence, AllOf(HasSubstr(" "), ::testing::Not(HasSubstr("{"))));
  }
  EXPECT_THAT(std::get<Faults>(outcome)[2].sentence, HasSubstr("'w9' is not in the register"));
  EXPECT_EQ(workshop.size(), size) << "nothing of it is in the book";
}

TEST(Record, RefusesWhatIsNoSubmissionAtAll) {
  const TestWorkshop workshop;
  EXPECT_THAT(faults_of(workshop.send({"", parsed("[]")})), ElementsAre(" not_an_object"));
  EXPECT_THAT(
      faults_of(workshop.send({"", parsed("{}")})),
      ElementsAre("/id missing", "/kind missing", "/occurred_at missing", "/fields missing"));
}

TEST(Record, LetsOnlyTheManagerChangeTheRegister) {
  const TestWorkshop workshop;
  const Told told = tell("register-change", retired("w1"));
  EXPECT_THAT(faults_of(workshop.send(told, kTechnician)), ElementsAre("/kind not_allowed"));
  EXPECT_THAT(faults_of(workshop.send(told, kInspector)), ElementsAre("/kind not_allowed"));
  EXPECT_THAT(faults_of(workshop.send(told, kManager)), IsEmpty());
  EXPECT_TRUE(workshop.ports().live.view()->thing("container", "w1")->retired);
}

TEST(Record, LetsNobodyRecordWhatTheDaemonRecords) {
  const TestWorkshop workshop;
  const std::string digest(64, 'a');
  const Told told = tell("report-issued", R"({"report":"waste-month","month":"2026-10",
      "paper":"a4","book_size":1,"report_digest":")" +
                                              digest + R"(","book_root":")" + digest + "\"}");
  for (const Actor& actor : {kManager, kTechnician, kInspector}) {
    EXPECT_THAT(faults_of(workshop.send(told, actor)), ElementsAre("/kind not_allowed"));
  }
}

TEST(Record, TakesALateEntryOfTheTimeBeforeTheContainerWasSealed) {
  const TestWorkshop workshop;
  workshop.enter(tell("container-change", R"({"container":"w1","container_act":"sealed"})",
                      "2026-11-20T10:00:00Z"));
  EXPECT_THAT(faults_of(workshop.send(drain("w1", "10", "2026-11-20T11:00:00Z"))),
              ElementsAre("/fields/container not_in_service"));
  workshop.enter(drain("w1", "10", "2026-11-20T09:59:59Z"));
  EXPECT_EQ(workshop.volume_ml("w1"), "10");
}

TEST(Record, ReturnsAWithdrawnToolOnlyByACompetentPerson) {
  const TestWorkshop workshop;
  const auto inspection = [](const std::string& result, const std::string& when) {
    return tell("tool-inspection",
                R"({"inspected_class":"tool","tool":"r1","result":")" + result + "\"}", when);
  };
  workshop.enter(inspection("withdrawn", "2026-11-20T10:00:00Z"), kTechnician);
  EXPECT_FALSE(workshop.ports().live.view()->thing("tool", "r1")->in_service);
  EXPECT_THAT(faults_of(workshop.send(inspection("in-service", kEarlier), kManager)),
              ElementsAre("/fields/result not_competent"));
  const auto competent_until = [](const std::string& act, const std::string& day) {
    return tell("register-change", R"({"thing_class":"person","thing":"p2","act":")" + act +
                                       R"(","competences":[{"competence":"tool-inspection",)" +
                                       R"("valid_until":")" + day + R"("}]})");
  };
  workshop.enter(competent_until("added", "2026-11-19"));
  EXPECT_THAT(faults_of(workshop.send(inspection("in-service", kEarlier), kOtherManager)),
              ElementsAre("/fields/result not_competent"))
      << "ended yesterday";
  workshop.enter(competent_until("changed", "2026-11-20"));
  workshop.enter(inspection("in-service", kEarlier), kOtherManager);
  EXPECT_TRUE(workshop.ports().live.view()->thing("tool", "r1")->in_service);
}

}  // namespace
}  // namespace benchwarden::workshop
