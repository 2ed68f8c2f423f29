#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;

struct Case {
  std::string submission;
  std::string refusal;  ///< the only one
  std::string role = "manager";
};

std::string into(const std::string& container) {
  return submit("oil-drained", R"({"container":)" + container + R"(,"volume_ml":62})");
}

std::string at(const std::string& time) {
  return R"({"id":")" + std::string(kId) + R"(","kind":"oil-drained","occurred_at":)" + time +
         R"(,"fields":{"container":"w1","volume_ml":62}})";
}

std::string cylinder(const std::string& attributes) {
  return submit("register-change",
                R"({"thing_class":"cylinder","thing":"n2","act":"added","name":"N2",)"
                R"("gas":"nitrogen","water_capacity_l":20,"working_pressure_bar":200)" +
                    attributes + "}");
}

std::string repeat(const std::string& text, int times, const std::string& between) {
  std::string all;
  for (int i = 0; i < times; ++i) all += (i == 0 ? "" : between) + text;
  return all;
}

std::vector<Case> shape_cases() {
  return {
      {"[1]", " not_an_object"},
      {"\"oil-drained\"", " not_an_object"},
      {drained_and("", R"(,"colour":"red")"), "/colour unknown_member"},
      {drained_and("", R"(,"a/b~":1)"), "/a~1b~0 unknown_member"},
      {drained(R"({"value":62,"unit":"ml","by":"jug"})"), "/fields/volume_ml/by unknown_member"},
      {submit("oil-drained", R"({"container":"w1"})"), "/fields/volume_ml missing"},
      {R"({"kind":"oil-drained","occurred_at":"2026-11-25T09:00:00Z",)"
       R"("fields":{"container":"w1","volume_ml":62}})",
       "/id missing"},
      {submit("oil-drained", "null"), "/fields missing"},
      {submit("level-reading", R"({"container":"w1","reading_method":"dip","height_mm":30})"),
       "/fields/volume_ml one_needed"},
      {submit("collection", R"({"collection":"c","stage":"weighed","loads":[{"container":"w1"}]})"),
       "/fields/loads/0/volume_ml one_needed"},
      {submit("collection", R"({"collection":"c","stage":"weighed","loads":[]})"),
       "/fields/loads missing"},
      {submit("rag-bin", R"({"container":"rag-bin","bin_act":"added"})"),
       "/fields/contaminant missing"},
      {into("17"), "/fields/container wrong_type"},
      {into("null"), "/fields/container wrong_type"},
      {submit("oil-drained", "[]"), "/fields wrong_type"},
      {drained_and("", R"(,"attachments":"none")"), "/attachments wrong_type"},
      {submit("collection", R"({"collection":"c","stage":"weighed","loads":[7]})"),
       "/fields/loads/0 wrong_type"},
      {submit("oil-boiled", "{}"), "/kind unknown_kind"},
      {drained_and(R"(,"shade":"brown")"), "/fields/shade unknown_field"},
      {drained_and("", R"(,"confirmed":["shade"])"), "/confirmed/0 unknown_name"},
      {submit("collection", R"({"collection":"c","stage":"weighed",)"
                            R"("loads":[{"container":"w1","mass_kg":1,"x":2}]})"),
       "/fields/loads/0/x unknown_field"},
  };
}

std::vector<Case> value_cases() {
  return {
      {submit("rag-bin", R"({"container":"rag-bin","bin_act":"added","contaminant":"solvent",)"
                         R"("lid_shut":"yes"})"),
       "/fields/lid_shut field_not_applicable"},
      {drained_and("", R"(,"reason":"because")"), "/reason field_not_applicable"},
      {drained_and("", R"(,"corrects":")" + std::string(kOtherId) + "\""),
       "/corrects field_not_applicable"},
      {drained("\"62\""), "/fields/volume_ml text_for_number"},
      {drained("\"NaN\""), "/fields/volume_ml text_for_number"},
      {drained("62e0"), "/fields/volume_ml not_a_number"},
      {drained("true"), "/fields/volume_ml not_a_number"},
      {drained_and("", R"(,"device_seq":"3")"), "/device_seq text_for_number"},
      {drained("62.0625"), "/fields/volume_ml too_many_places"},
      {drained_and(R"(,"unit_count":1.5)"), "/fields/unit_count too_many_places"},
      {drained("0"), "/fields/volume_ml impossible"},
      {drained("-62"), "/fields/volume_ml impossible"},
      {drained("25000"), "/fields/volume_ml impossible"},
      {drained("123456789012345678901234567890"), "/fields/volume_ml impossible"},
      {drained("25000", R"(,"confirmed":["volume_ml"])"), "/fields/volume_ml impossible"},
      {drained_and("", R"(,"device_seq":-1)"), "/device_seq impossible"},
      {drained_and("", R"(,"clock_offset_ms":1.5)"), "/clock_offset_ms impossible"},
      {submit("transfer", R"({"from_container":"w1","to_container":"w1"})"),
       "/fields/to_container named_twice"},
      {drained("5001"), "/fields/volume_ml needs_confirmation"},
      {drained("5001", R"(,"confirmed":["note"])"), "/fields/volume_ml needs_confirmation"},
      {drained(R"({"value":62,"unit":"psi"})"), "/fields/volume_ml/unit unknown_unit"},
  };
}

std::vector<Case> thing_cases() {
  return {
      {drained(R"({"value":62,"unit":7})"), "/fields/volume_ml/unit unknown_unit"},
      {drained_and(R"(,"fluid":"water")"), "/fields/fluid unknown_code"},
      {into("\"w77\""), "/fields/container unknown_thing"},
      {submit("register-change", R"({"thing_class":"tool","thing":"t9","act":"retired"})"),
       "/fields/thing unknown_thing"},
      {into("\"w4\""), "/fields/container retired_thing"},
      {submit("register-change", R"({"thing_class":"cylinder","thing":"n4","act":"retired"})"),
       "/fields/thing retired_thing"},
      {into("\"w3\""), "/fields/container not_in_service"},
      {into("\"Drum 1\""), "/fields/container bad_id"},
      {R"({"id":"7","kind":"oil-drained","occurred_at":"2026-11-25T09:00:00Z",)"
       R"("fields":{"container":"w1","volume_ml":62}})",
       "/id bad_id"},
      {at("\"2026-11-25T09:33:56\""), "/occurred_at bad_time"},
      {at("\"1999-12-31T23:59:59Z\""), "/occurred_at bad_time"},
      {at("\"2026-11-25T09:10:00.001Z\""), "/occurred_at in_future"},
      {submit("collection", R"({"collection":"c2","stage":"planned","planned_date":"2026-02-29"})"),
       "/fields/planned_date bad_date"},
      {drained_and(R"(,"job_reference":")" + std::string(61, 'x') + "\""),
       "/fields/job_reference text_too_long"},
      {drained_and(R"(,"note":"one\ntwo")"), "/fields/note hidden_sign"},
      {drained_and(R"(,"note":"12\u202E34")"), "/fields/note hidden_sign"},
      {drained_and(R"(,"note":"  ")"), "/fields/note blank_text"},
      {drained_and(R"(,"note":"\u00A0\u3164")"), "/fields/note blank_text"},
      {cylinder(R"(,"last_test_month":"2022-13")"), "/fields/last_test_month bad_text"},
      {submit("register-change", R"({"thing_class":"workshop","thing":"site","act":"added",)"
                                 R"("name":"S","address":"A","time_zone":"Sea/Port"})"),
       "/fields/time_zone bad_text"},
      {submit("register-change", R"({"thing_class":"stream","thing":"dust","act":"added",)"
                                 R"("name":"R","low_code":"21 01 01","hazardous":"yes",)"
                                 R"("counted_by":"mass"})"),
       "/fields/low_code bad_text"},
  };
}

std::vector<Case> rule_cases() {
  return {
      {drained_and("", R"(,"attachments":["E3B0"])"), "/attachments/0 bad_text"},
      {submit("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":180})",
              R"(,"attachments":[")" + std::string(64, '0') + R"("])"),
       "/attachments/0 unknown_attachment"},
      {submit("collection", R"({"collection":"c","stage":"weighed","loads":[)" +
                                repeat(R"({"container":"w1","mass_kg":1})", 41, ",") + "]}"),
       "/fields/loads too_many_rows"},
      {drained_and("", R"(,"attachments":[)" + repeat("1", 21, ",") + "]"),
       "/attachments too_many_rows"},
      {R"({"id":")" + std::string(kOtherId) +
           R"(","kind":"correction","occurred_at":"2026-11-25T09:40:00+01:00","corrects":")" + kId +
           R"(","reason":" ","fields":{"action":"struck-out"}})",
       "/reason reason_needed"},
      {R"({"id":")" + std::string(kOtherId) +
           R"(","kind":"correction","occurred_at":"2026-11-25T09:40:00+01:00","corrects":")" +
           kOtherId + R"(","reason":"r","fields":{"action":"struck-out"}})",
       "/corrects unknown_entry"},
      {R"({"id":")" + std::string(kOtherId) +
           R"(","kind":"correction","occurred_at":"2026-11-25T09:40:00+01:00","corrects":)"
           R"("0193619e-0a3b-7c44-8d21-5b0f6c2f1a09","reason":"r",)"
           R"("fields":{"action":"struck-out"}})",
       "/corrects already_struck"},
      {correct(R"({"action":"corrected"})"), "/fields nothing_changed"},
      {R"({"id":")" + std::string(kOtherId) +
           R"(","kind":"correction","occurred_at":"2026-11-24T09:40:00+01:00","corrects":")" + kId +
           R"(","reason":"r","fields":{"action":"struck-out"}})",
       "/occurred_at before_target"},
      {submit("register-change", R"({"thing_class":"container","thing":"w1","act":"changed"})"),
       "/fields nothing_changed"},
      {submit("tool-inspection", R"({"inspected_class":"tool","tool":"r2","result":"in-service"})"),
       "/fields/result not_competent"},
      {submit("register-change", R"({"thing_class":"cylinder","thing":"n1","act":"added",)"
                                 R"("name":"N","gas":"nitrogen","water_capacity_l":20,)"
                                 R"("working_pressure_bar":200})"),
       "/fields/thing thing_exists"},
      {submit("register-change", R"({"thing_class":"container","thing":"w1","act":"changed",)"
                                 R"("counts_waste":"no"})"),
       "/fields/counts_waste fixed_attribute"},
      {submit("transfer", R"({"from_container":"w1","to_container":"rag-bin"})"),
       "/fields/to_container counted_already"},
      {submit("oil-drained", R"({"container":"rag-drum","volume_ml":62})"),
       "/fields/container not_countable"},
      {submit("register-change", R"({"thing_class":"stream","thing":"oil","act":"retired"})"),
       "/fields/thing still_in_use"},
      {submit("register-change", R"({"thing_class":"container","thing":"w2","act":"retired"})"),
       "/fields/thing not_emptied"},
      {R"({"id":")" + std::string(kOtherId) +
           R"(","kind":"correction","occurred_at":"2026-11-25T09:40:00+01:00","corrects":)"
           R"("0193619e-0a3b-7c44-8d21-5b0f6c2f1a08","reason":"r",)"
           R"("fields":{"action":"struck-out"}})",
       "/corrects relied_on"},
      {drained_and(""), "/kind not_allowed", "inspector"},
      {submit("register-change", R"({"thing_class":"container","thing":"w1","act":"retired"})"),
       "/kind not_allowed", "technician"},
  };
}

std::vector<Case> id_and_order_cases() {
  return {
      {submit("stuck-part", R"({"stuck_part":"s2","work_stage":"closed","outcome":"freed"})"),
       "/fields/stuck_part closed_before"},
      {submit("stuck-part", R"({"stuck_part":"s9","work_stage":"closed","outcome":"freed"})"),
       "/fields/stuck_part not_begun"},
      {submit("event", R"({"event":"e1","event_type":"fire"})"), "/fields/event id_used"},
      {submit("register-change", R"({"thing_class":"closure","thing":"b","act":"added",)"
                                 R"("name":"B","first_day":"2026-12-24","last_day":"2026-12-23"})"),
       "/fields/last_day out_of_order"},
      {submit("register-change",
              R"({"thing_class":"gauge","thing":"g1","act":"changed","gauge_class":"1.6"})"),
       "/fields/gauge_class retired_field"},
  };
}

std::string stage_of_c(const std::string& fields) {
  return submit("collection", R"({"collection":"c","stage":)" + fields + "}");
}

/// Of the collection c, as CaseWorld tells it.
std::vector<Case> collection_cases() {
  return {
      {submit("collection",
              R"({"collection":"c2","stage":"document-returned","document_number":"N 4711"})"),
       "/fields/collection nothing_taken"},
      {stage_of_c(R"("taken","carrier":"c1","document_number":"N 1",)"
                  R"("loads":[{"container":"w1","volume_ml":5}])"),
       "/fields/loads/0/container taken_before"},
      {stage_of_c(R"("planned","planned_date":"2026-11-30")"), "/fields/stage taken_already"},
      {stage_of_c(R"("weighed","loads":[{"container":"w3","mass_kg":5}])"),
       "/fields/loads/0/container weighed_before"},
      {stage_of_c(R"("weighed","loads":[{"container":"rag-bin","mass_kg":5}])"),
       "/fields/loads/0/container not_in_collection"},
      {stage_of_c(R"("document-returned","document_number":"N 4712")"),
       "/fields/document_number unknown_document"},
      {R"({"id":")" + std::string(kId) +
           R"(","kind":"collection","occurred_at":"2026-11-19T09:00:00Z","fields":{)"
           R"("collection":"c","stage":"document-returned","document_number":"N 4711"}})",
       "/fields/document_number not_yet_taken"},
      {R"({"id":")" + std::string(kOtherId) +
           R"(","kind":"correction","occurred_at":"2026-11-25T08:40:00Z","reason":"mixed up",)"
           R"("corrects":"0193619e-0a3b-7c44-8d21-5b0f6c2f1a07",)"
           R"("fields":{"action":"corrected","collection":"c2"}})",
       "/corrects stages_rest"},
  };
}

std::vector<Case> finding_and_month_cases() {
  return {{submit("finding-acknowledged", R"({"finding":"f-8","reason_given":"ordered"})"),
           "/fields/finding unknown_finding"},
          {submit("month-close", R"({"month":"2026-11"})"), "/fields/month month_running"},
          {submit("month-close", R"({"month":"2026-09"})"), "/fields/month month_closed"},
          {submit("month-close",
                  R"({"month":"2026-10","figures_digest":")" + std::string(64, '0') + R"("})"),
           "/fields/figures_digest figures_changed"},
          {submit("month-close", R"({"month":"2026-05"})"), "/fields/month month_before_book"},
          {submit("oil-test", R"({"tested_class":"stream","stream":"oil","method":"kit",)"
                              R"("sampled_on":"2026-11-26","halogens_ppm":200})"),
           "/fields/sampled_on yet_to_come"},
          {submit("finding-acknowledged",
                  R"({"finding":"f-7","reason_given":"ordered","until":"2026-11-24"})"),
           "/fields/until passed_already"},
          {submit("hold", R"({"hold":"lifted","authority":"Agency"})"),
           "/fields/authority not_placed"}};
}

const std::vector<Case>& cases() {
  static const std::vector<Case> all = [] {
    std::vector<Case> joined;
    for (const auto& part : {shape_cases(), value_cases(), thing_cases(), rule_cases(),
                             collection_cases(), id_and_order_cases(), finding_and_month_cases()}) {
      joined.insert(joined.end(), part.begin(), part.end());
    }
    return joined;
  }();
  return all;
}

/// A world with a drain to correct and one struck out.
class CaseWorld : public World {
 public:
  explicit CaseWorld(const Case& test) {
    record(drained_and(""));
    targets["0193619e-0a3b-7c44-8d21-5b0f6c2f1a09"] = {targets[kId].content, {}, true, false};
    targets["0193619e-0a3b-7c44-8d21-5b0f6c2f1a08"] = {targets[kId].content, {}, false, true};
    targets["0193619e-0a3b-7c44-8d21-5b0f6c2f1a07"].content =
        accept(stage_of_c(R"("taken","carrier":"c1","document_number":"N 1",)"
                          R"("loads":[{"container":"w2","volume_ml":5}])"),
               *this);
    for (const char* container : {"w2", "w3"}) {
      collections["c"].push_back(
          {base::Instant{0},
           {"c", entries::CollectionStage::kWeighed, "", "", {{container, {}, false}}}});
    }
    tied["stream/oil"] = {{"w1", "w2"}, ""};
    tied["container/w2"] = {{}, "62 mL"};
    things["container/rag-bin"].attributes = {{"counts_waste", entries::Code{"no"}}};
    things["container/rag-drum"].attributes = {{"stream", entries::Id{"rags"}}};
    things["stream/rags"].attributes = {{"counted_by", entries::Code{"mass"}}};
    role = test.role;
  }
};

TEST(Refusals, AreGivenOneByOne) {
  for (const Case& test : cases()) {
    EXPECT_THAT(refusals(test.submission, CaseWorld(test)), ElementsAre(test.refusal))
        << test.submission;
  }
}

TEST(Refusals, HaveACaseForEveryCode) {
  // Who sends an entry is told by tests/workshop/signer_test.cpp, what is said of answers for
  // entries by claim_rules_test.
  std::set<std::string> seen{"not_paired",   "unknown_person", "pin_needed",      "unknown_number",
                             "others_entry", "pin_shown",      "confirmed_before"};
  for (const Case& test : cases()) {
    seen.insert(test.refusal.substr(test.refusal.rfind(' ') + 1));
  }
  for (const entries::RefusalCode code : entries::all_refusal_codes()) {
    EXPECT_TRUE(seen.contains(std::string(entries::refusal_key(code))))
        << entries::refusal_key(code);
  }
}

TEST(Refusals, ComeAllAtOnceInTheOrderOfMembersThenForm) {
  const std::string submission =
      R"({"fields":{"shade":1,"note":"\u0007","fluid":"tar","volume_ml":"x","container":"w77"},)"
      R"("confirmed":["nix"],"colour":"red","occurred_at":"soon","kind":"oil-drained","id":"1"})";
  EXPECT_THAT(refusals(submission, World()),
              ElementsAre("/id bad_id", "/occurred_at bad_time", "/colour unknown_member",
                          "/confirmed/0 unknown_name", "/fields/container unknown_thing",
                          "/fields/volume_ml text_for_number", "/fields/fluid unknown_code",
                          "/fields/note hidden_sign", "/fields/shade unknown_field"));
}

TEST(Refusals, DoNotFollowFromAnUnreadableChoice) {
  // Whether mass_kg and lid_shut belong cannot be told while bin_act is unknown.
  EXPECT_THAT(refusals(submit("rag-bin", R"({"container":"rag-bin","bin_act":"burnt",)"
                                         R"("mass_kg":3,"lid_shut":"yes"})"),
                       World()),
              ElementsAre("/fields/bin_act unknown_code"));
}

TEST(Refusals, StillJudgeValuesThatHangOnAnUnreadableChoice) {
  EXPECT_THAT(refusals(submit("rag-bin", R"({"container":"rag-bin","mass_kg":-3})"), World()),
              ElementsAre("/fields/bin_act missing", "/fields/mass_kg impossible"));
}

TEST(Refusals, SayWhatWasGivenAndWhatIsAccepted) {
  const auto result = validate(real_catalog(), json(drained("25000")), World());
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error()[0].value, "25\u202F000\u00A0mL");
  EXPECT_EQ(result.error()[0].accepted, "0.001 … 20\u202F000\u00A0mL");
}

TEST(Refusals, ShowAnAmountInTheUnitItWasGivenIn) {
  const auto result =
      validate(real_catalog(), json(drained(R"({"value":-1234.5,"unit":"fl_oz_us"})")), World());
  ASSERT_FALSE(result.ok());
  EXPECT_THAT(result.error()[0].value, testing::StartsWith("-1\u202F234.5\u00A0"));
}

TEST(Refusals, CutLongValuesShort) {
  std::string text;
  for (int i = 0; i < 100; ++i) text += "ö";
  const auto result =
      validate(real_catalog(), json(drained_and(",\"fluid\":\"" + text + "\"")), World());
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error()[0].value, text.substr(0, 120) + "…");
}

TEST(Refusals, NameChoicesAndGroupsByTheirLabels) {
  const auto accepted = [](const std::string& submission) {
    const auto result = validate(real_catalog(), json(submission), World());
    return result ? std::string() : result.error()[0].accepted;
  };
  EXPECT_EQ(accepted(submit("rag-bin", R"({"container":"rag-bin","bin_act":"added",)"
                                       R"("contaminant":"solvent","lid_shut":"yes"})")),
            "What was done = Checked at close");
  EXPECT_EQ(accepted(submit("collection", R"({"collection":"c","stage":"weighed",)"
                                          R"("loads":[{"container":"w1"}]})")),
            "Volume, Mass");
}

}  // namespace
}  // namespace benchwarden::forms
