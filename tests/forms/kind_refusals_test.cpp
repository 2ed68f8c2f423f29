#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;

/// One fault, or a few, of each kind; what each code of refusal means is told in refusals_test.
struct KindCase {
  std::string submission;
  std::string refusal;  ///< the only one
  std::string role = "manager";
};

std::vector<KindCase> daily_cases() {
  return {
      {submit("oil-drained", R"({"container":"w3","volume_ml":62})"),
       "/fields/container not_in_service"},
      {submit("rag-bin", R"({"container":"rag-bin","bin_act":"emptied","mass_kg":3})"),
       "/fields/emptied_into missing"},
      {submit("level-reading", R"({"container":"w1","reading_method":"dip"})"),
       "/fields/volume_ml one_needed"},
      {submit("transfer", R"({"from_container":"w1","to_container":"w3"})"),
       "/fields/to_container not_in_service"},
      {submit("container-change", R"({"container":"w1","container_act":"placed",)"
                                  R"("seal_number":"S"})"),
       "/fields/seal_number field_not_applicable"},
      {submit("collection", R"({"collection":"c9","stage":"planned"})"),
       "/fields/planned_date missing"},
      {submit("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":451})"),
       "/fields/gauge_pressure_bar impossible"},
      {submit("tool-inspection", R"({"inspected_class":"gauge","tool":"r1","gauge":"g1",)"
                                 R"("result":"in-service"})"),
       "/fields/tool field_not_applicable"},
      {correct(R"({"action":"corrected"})"), "/fields nothing_changed"},
      {submit("report-issued", R"({"report":"waste-month","paper":"a4","report_digest":"e3",)"
                               R"("book_size":1,"book_root":")" +
                                   std::string(64, '0') + "\"}"),
       "/fields/report_digest bad_text", "daemon"},
      {submit("entries-confirmed",
              R"({"authorship":"perhaps","confirmed_entries":[{"entry_number":3}]})"),
       "/fields/authorship unknown_code", "technician"},
      {submit("backup-made", R"({"book_size":7,"book_root":")" + std::string(64, '0') + "\"}"),
       "/fields/manifest_digest missing", "daemon"},
      {submit("end-accepted",
              R"({"head_record":"missing","book_root":")" + std::string(64, '0') + "\"}"),
       "/fields/book_size missing", "daemon"},
  };
}

std::vector<KindCase> waste_and_gas_cases() {
  return {
      {submit("solvent-waste", R"({"container":"w4","volume_ml":500})"),
       "/fields/container retired_thing"},
      {submit("container-inspection", R"({"container":"w1","closed":"yes","leak_free":"yes"})"),
       "/fields/label_legible missing"},
      {submit("oil-test", R"({"tested_class":"stream","stream":"oil","sampled_on":"2026-11-20"})"),
       "/fields/halogens_ppm one_needed"},
      {submit("oil-test", R"({"tested_class":"stream","stream":"oil","sampled_on":"2026-11-20",)"
                          R"("pcb_ppm":1,"rebuttal":"rebutted"})"),
       "/fields/rebuttal_reason missing"},
      {submit("waste-determination",
              R"({"stream":"oil","hazardous":"yes","basis":"analysis","reason_given":"r"})"),
       "/fields/low_code one_needed"},
      {submit("waste-determination", R"({"stream":"oil","low_code":"99 99 99","hazardous":"yes",)"
                                     R"("basis":"analysis","reason_given":"r"})"),
       "/fields/low_code bad_text"},
      {submit("waste-determination", R"({"stream":"oil","low_code":"00 00 00","hazardous":"yes",)"
                                     R"("basis":"analysis","reason_given":"r"})"),
       "/fields/low_code bad_text"},
      {submit("waste-determination", R"({"stream":"oil","low_code":"13 01 00","hazardous":"yes",)"
                                     R"("basis":"analysis","reason_given":"r"})"),
       "/fields/low_code bad_text"},
      {submit("cylinder-change", R"({"cylinder":"n4","change":"refilled"})"),
       "/fields/cylinder retired_thing"},
      {submit("cylinder-change", R"({"cylinder":"n4","change":"fitted"})"),
       "/fields/cylinder retired_thing"},
      {submit("cylinder-change", R"({"cylinder":"n1","change":"fitted","filled_on":"2026-11-20"})"),
       "/fields/filled_on field_not_applicable"},
      {submit("gas-use", R"({"cylinder":"n1","unit_count":0})"), "/fields/unit_count impossible"},
      {submit("plant-check", R"({"plant":"x7","result":"in-service"})"),
       "/fields/plant unknown_thing"},
      {submit("cabinet-count", R"({"cabinet":"k1","rows":[]})"), "/fields/rows missing"},
      {submit("cabinet-count",
              R"({"cabinet":"k1","rows":[{"product":"cleaner","volume_ml":500,"count":1.5}]})"),
       "/fields/rows/0/count too_many_places"},
  };
}

std::vector<KindCase> safety_and_office_cases() {
  return {
      {submit("walk-round", R"({"period":"yearly","exits_clear":"yes"})"),
       "/fields/period unknown_code"},
      {submit("stuck-part", R"({"stuck_part":"s1","work_stage":"opened",)"
                            R"("pressure_state":"released","stop_fitted":"yes","guard":"yes",)"
                            R"("eye_protection":"yes","ear_protection":"yes"})"),
       "/fields/stuck_part id_used"},
      {submit("stuck-part", R"({"stuck_part":"s2","work_stage":"closed","outcome":"freed"})"),
       "/fields/stuck_part closed_before"},
      {submit("event", R"({"event":"e9","event_type":"spill","accident_book":"yes"})"),
       "/fields/accident_book field_not_applicable"},
      {submit("action-closed",
              R"({"about":"event","event":"e9","what_was_done":"w","effective":"yes"})"),
       "/fields/event not_begun"},
      {submit("briefing", R"({"briefed":"p1","topic":"juggling","valid_until":"2027-11-25"})"),
       "/fields/topic unknown_code"},
      {submit("briefing", R"({"briefed":"p1","topic":"emergency","valid_until":"2027-02-29"})"),
       "/fields/valid_until bad_date"},
      {submit("month-close", R"({"month":"2026-13"})"), "/fields/month bad_text"},
      {submit("month-close", R"({"month":"2026-10"})"), "/kind not_allowed", "technician"},
      {submit("finding-acknowledged", R"({"finding":"f-7","reason_given":" "})"),
       "/fields/reason_given blank_text"},
      {submit("hold", R"({"hold":"placed","authority":"A"})"), "/fields/scope missing"},
      {submit("plant-check", R"({"plant":"x1","body_condition":"failed","result":"in-service"})"),
       "/fields/result needs_confirmation"},
      {submit("access-change", R"({"access_act":"opened","account":"p1","done_by":"p1"})"),
       "/fields/access_act unknown_code", "daemon"},
      {submit("access-day", R"({"log_day":"2026-11-20","foreign_host_count":0,)"
                            R"("foreign_origin_count":0,"locked_out_count":0,"log_line_count":0,)"
                            R"("other_refusal_count":0,"sign_in_count":0,"too_many_count":0,)"
                            R"("unknown_person_count":0,"wrong_role_count":0,)"
                            R"("wrong_secret_count":0,"log_digest":"e3b0"})"),
       "/fields/log_digest bad_text", "daemon"},
      {submit("access-change", R"({"access_act":"token-made","account":"p1","done_by":"p1"})"),
       "/kind not_allowed", "manager"},
      {submit("rules-adopted",
              R"({"pack":"england","edition":"1","layer":"base","digest":"e3b0"})"),
       "/fields/digest bad_text", "daemon"},
      {submit("rules-adopted",
              R"({"pack":"england","edition":"1","layer":"base","digest":
              "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})"),
       "/kind not_allowed", "manager"},
      {submit("register-change",
              R"({"thing_class":"person","thing":"p9","act":"added","name":"A. Person"})"),
       "/fields/name field_not_applicable"},
      {submit("register-change",
              R"({"thing_class":"plant","thing":"x9","act":"added","name":"X"})"),
       "/fields/plant_type missing"},
  };
}

std::vector<KindCase> kind_cases() {
  std::vector<KindCase> all;
  for (const auto& part : {daily_cases(), waste_and_gas_cases(), safety_and_office_cases()}) {
    all.insert(all.end(), part.begin(), part.end());
  }
  return all;
}

TEST(KindRefusals, AreGivenOneByOne) {
  for (const KindCase& test : kind_cases()) {
    World world;
    world.record(submit("oil-drained", R"({"container":"w1","volume_ml":62})"));
    world.role = test.role;
    EXPECT_THAT(refusals(test.submission, world), ElementsAre(test.refusal)) << test.submission;
  }
}

TEST(KindRefusals, AreThereForEveryKind) {
  std::set<std::string> seen;
  for (const KindCase& test : kind_cases())
    seen.insert(*json(test.submission).find("kind")->string());
  for (const Definition& definition : real_catalog().definitions()) {
    EXPECT_TRUE(seen.contains(definition.kind)) << definition.kind;
  }
}

}  // namespace
}  // namespace benchwarden::forms
