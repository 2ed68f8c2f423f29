#include "world.h"

namespace benchwarden::forms {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

const char* const kFullInspection = R"({"inspected_class":"tool","tool":"r1",
  "body_condition":"passed","seals_condition":"passed","marking_condition":"passed",
  "relief_condition":"passed","hose_condition":"not-applicable","needle_condition":"not-applicable",
  "reference_instrument":"Reference gauge 7, certificate 2026/118",
  "points":[{"nominal_bar":10,"as_found_bar":10.2,"as_left_bar":10},
            {"nominal_bar":{"value":2900,"unit":"psi"},"as_found_bar":201.5}],
  "result":"in-service","note":"seat renewed"})";

const char* const kNewContainer = R"({"thing_class":"container","thing":"w9","act":"added",
  "name":"New oil drum","stream":"oil","shape":"drum","capacity_l":205,
  "working_limit_percent":90,"counts_waste":"yes","tare_kg":18.5,"bund":"B1","location":"Bay 2"})";

const char* const kIssued = R"({"report":"waste-month","month":"2026-10","paper":"a4",
  "report_digest":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
  "book_size":123,
  "book_root":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})";

const char* const kBackupMade = R"({"book_size":7,
  "book_root":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
  "manifest_digest":"01ba4719c80b6fe911b091a7c05124b64eeece964e09c058ef8f9805daca546b"})";
const char* const kEndAccepted = R"({"book_size":7,"head_record":"readable","expected_size":12,
  "book_root":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
  "expected_root":"01ba4719c80b6fe911b091a7c05124b64eeece964e09c058ef8f9805daca546b"})";
const char* const kEndWithoutRecord = R"({"book_size":7,"head_record":"missing",
  "book_root":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})";

/// The value as it was typed, when it was typed in another unit.
Json as_typed(const Json& stored, const std::string& path,
              const std::vector<entries::AsRead>& readings) {
  for (const entries::AsRead& reading : readings) {
    if (reading.field == path) {
      return JsonObject{{"value", reading.value}, {"unit", reading.unit}};
    }
  }
  return stored;
}

Json typed_rows(const JsonArray& rows, const std::string& name,
                const std::vector<entries::AsRead>& readings) {
  JsonArray typed;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    JsonObject row;
    for (const auto& [column, cell] : *rows[i].object()) {
      const std::string path = name + "/" + std::to_string(i) + "/" + column;
      row.emplace_back(column, as_typed(cell, path, readings));
    }
    typed.emplace_back(std::move(row));
  }
  return typed;
}

}  // namespace

namespace {

std::vector<Sample> bench_samples() {
  return {
      {"drain", submit("oil-drained", R"({"container":"w1","volume_ml":62.5,
         "fluid":"mineral-oil","temperature_c":{"value":72,"unit":"f"},"measured_by":"jug",
         "unit_count":2,"job_reference":"J-104","contamination":"none","note":"left leg"})")},
      {"drain-least", submit("oil-drained", R"({"container":"w1","volume_ml":62})"), "technician"},
      {"rags-added",
       submit("rag-bin",
              R"({"container":"rag-bin","bin_act":"added","contaminant":"drying-oil"})")},
      {"rags-checked", submit("rag-bin", R"({"container":"rag-bin","bin_act":"checked-at-close",
         "fill_percent":40,"lid_shut":"yes"})")},
      {"rags-emptied", submit("rag-bin", R"({"container":"rag-bin","bin_act":"emptied",
         "emptied_into":"rag-drum","mass_kg":3.25})")},
      {"dip", submit("level-reading", R"({"container":"w1","reading_method":"dip",
         "height_mm":412,"volume_ml":96500})")},
      {"weighing", submit("level-reading", R"({"container":"w1","reading_method":"weighing",
         "mass_kg":{"value":180.5,"unit":"lb"},"instrument":"Scale 2"})")},
      {"transfer", submit("transfer", R"({"from_container":"w2","to_container":"w1"})")},
      {"transfer-part", submit("transfer", R"({"from_container":"w2","to_container":"w1",
         "volume_ml":{"value":5,"unit":"gal_us"},"measured_by":"estimate"})")},
      {"sealed", submit("container-change",
                        R"({"container":"w1","container_act":"sealed","seal_number":"S 17",
         "label_legible":"yes"})")},
      {"swapped", submit("container-change",
                         R"({"container":"w3","container_act":"swapped","location":"Bay 1"})")},
      {"planned", submit("collection", R"({"collection":"c-2026-12","stage":"planned",
         "carrier":"c1","planned_date":"2026-11-30"})")},
      {"not-taken", submit("collection", R"({"collection":"c-2026-12","stage":"not-taken",
         "carrier":"c1","refused":"The drums have no labels"})")},
      {"taken", submit("collection", R"({"collection":"c-2026-12","stage":"taken","carrier":"c1",
         "document_number":"N 4711","loads":[{"container":"w3","volume_ml":190000,
         "emptied":"yes"},{"container":"rag-drum","mass_kg":42.5}],"refused":"none"})")},
      {"returned", submit("collection", R"({"collection":"c-2026-11","stage":"document-returned",
         "document_number":"N 4711"})")},
      {"weighed", submit("collection", R"({"collection":"c-2026-11","stage":"weighed",
         "loads":[{"container":"w3","mass_kg":171}]})")},
      {"cylinder", submit("cylinder-check", R"({"cylinder":"n1",
         "gauge_pressure_bar":{"value":2900,"unit":"psi"},"gauge":"g1","ambient_temperature_c":19,
         "outlet_gauge_pressure_bar":12,"leak_test":"passed","secured":"yes",
         "valve_protection":"regulator-fitted","label_legible":"yes",
         "ventilation_state":"running","oxygen_alarm":"none","result":"in-service"})")},
      {"inspection", submit("tool-inspection", kFullInspection)},
      {"gauge-inspection", submit("tool-inspection", R"({"inspected_class":"gauge","gauge":"g1",
         "result":"withdrawn"})")},
  };
}

std::vector<Sample> office_samples() {
  return {
      {"container-added", submit("register-change", kNewContainer)},
      {"stream-added", submit("register-change", R"({"thing_class":"stream","thing":"rags",
         "act":"added","name":"Oily rags","low_code":"15 02 02","hazardous":"yes",
         "counted_by":"mass"})")},
      {"workshop-added", submit("register-change", R"({"thing_class":"workshop","thing":"site",
         "act":"added","name":"Saltmarsh Damper Works","address":"1 Quay","time_zone":"UTC"})")},
      {"cylinder-added", submit("register-change", R"({"thing_class":"cylinder","thing":"n2",
         "act":"added","name":"Small nitrogen","gas":"nitrogen","water_capacity_l":20,
         "working_pressure_bar":200,"last_test_month":"2022-05"})")},
      {"carrier-added", submit("register-change", R"({"thing_class":"carrier","thing":"c2",
         "act":"added","name":"Second carrier","registration_number":"R 9",
         "registration_expires":"2027-03-31"})")},
      {"tool-added", submit("register-change", R"({"thing_class":"tool","thing":"p1",
         "act":"added","name":"Hand pump","tool_type":"hand-pump",
         "inspection_interval_days":365})")},
      {"changed", submit("register-change", R"({"thing_class":"container","thing":"w1",
         "act":"changed","location":"Bay 3"})")},
      {"retired", submit("register-change", R"({"thing_class":"container","thing":"w2",
         "act":"retired"})")},
      {"issued", submit("report-issued", kIssued), "daemon"},
      {"backup-made", submit("backup-made", kBackupMade), "daemon"},
      {"end-accepted", submit("end-accepted", kEndAccepted), "daemon"},
      {"end-without-record", submit("end-accepted", kEndWithoutRecord), "daemon"},
  };
}

std::vector<Sample> round_samples() {
  return {
      {"solvent", submit("solvent-waste", R"({"container":"w1","volume_ml":{"value":2,"unit":"l"},
         "solvent":"hydrocarbon","product":"cleaner","source":"parts-wash","measured_by":"jug",
         "contamination":"water","job_reference":"J-104","note":"washer changed"})",
                         R"(,"confirmed":["contamination"])")},
      {"container-inspected", submit("container-inspection", R"({"container":"w3","closed":"yes",
         "label_legible":"yes","leak_free":"no","damage":"rust","bund_dry":"no",
         "aisle_clear":"yes","spill_kit":"yes","note":"seam wet"})")},
      {"oil-tested", submit("oil-test", R"({"tested_class":"container","container":"w1",
         "sampled_on":"2026-11-20","method":"Kit","laboratory":"Own","certificate_number":"L 7",
         "halogens_ppm":1000.5,"water_ppm":{"value":0.3,"unit":"percent"},"pcb_ppm":2,
         "flash_point_c":180,"rebuttal":"rebutted","rebuttal_reason":"chlorinated additive"})")},
      {"stream-tested", submit("oil-test", R"({"tested_class":"stream","stream":"oil",
         "sampled_on":"2026-11-20","pcb_ppm":0})")},
      {"determined", submit("waste-determination", R"({"stream":"oil","low_code":"13 01 10",
         "national_code":"N 1","hazardous":"yes","basis":"data-sheet",
         "reason_given":"mineral hydraulic oil, no chlorine"})")},
      {"fitted", submit("cylinder-change", R"({"cylinder":"n1","change":"fitted","tool":"r1",
         "gauge_pressure_bar":198,"ambient_temperature_c":18,"damage_found":"no"})")},
      {"refilled", submit("cylinder-change", R"({"cylinder":"n1","change":"refilled",
         "supplier":"Gas works","filled_on":"2026-11-20","hammer_test":"yes"})")},
      {"charged", submit("gas-use", R"({"cylinder":"n1","tool":"r1","unit_count":6,
         "charge_pressure_bar":{"value":200,"unit":"psi"},"unit_gas_volume_ml":120,
         "job_reference":"J-104"})")},
      {"plant-checked", submit("plant-check", R"({"plant":"x1","access_clear":"yes",
         "body_condition":"passed","marking_condition":"passed","charge_condition":"passed",
         "function_test":"not-applicable","relief_condition":"not-applicable","drained":"no",
         "gauge_pressure_bar":14,"oxygen_percent":20.9,
         "air_changes_per_h":{"value":0.1,"unit":"per_min"},"result":"in-service"})")},
      {"counted", submit("cabinet-count", R"({"cabinet":"k1","rows":[{"product":"cleaner",
         "volume_ml":{"value":5,"unit":"l"},"count":3,"material":"metal"}],"doors_shut":"yes",
         "tray_dry":"yes"})")},
      {"walked", submit("walk-round", R"({"period":"daily","exits_clear":"no","gas_store":"yes",
         "extinguishers":"yes","spill_kit":"yes","eye_wash":"yes","ppe":"yes","floor_clear":"yes",
         "containers_closed":"no","note":"pallet before the back door"})")},
  };
}

std::vector<Sample> safety_samples() {
  return {
      {"stuck-opened", submit("stuck-part", R"({"stuck_part":"s9","work_stage":"opened",
         "part":"seal head","pressure_state":"not-known","stop_fitted":"yes","guard":"yes",
         "eye_protection":"yes","ear_protection":"yes","authorised_by":"p1"})")},
      {"stuck-closed", submit("stuck-part", R"({"stuck_part":"s1","work_stage":"closed",
         "outcome":"freed"})")},
      {"spilled", submit("event", R"({"event":"e9","event_type":"spill",
         "what_happened":"drum knocked over","fluid":"mineral-oil","volume_ml":1500,
         "reached_drain":"no","owner":"p2","follow_up_by":"2026-12-01"})")},
      {"aided", submit("event", R"({"event":"e8","event_type":"first-aid",
         "accident_book":"yes"})")},
      {"acted", submit("action-closed", R"({"about":"event","event":"e1",
         "what_was_done":"drum strapped to the rack","effective":"yes"})")},
      {"finding-acted", submit("action-closed", R"({"about":"finding","finding":"f-7",
         "what_was_done":"bin emptied","effective":"no"})")},
      {"briefed", submit("briefing", R"({"briefed":"p2","topic":"high-pressure-gas",
         "given_by":"p1","valid_until":"2027-11-25"})")},
      {"month-closed",
       submit("month-close", R"({"month":"2026-10","statement":"no gaps","book_size":12,
         "figures_digest":
           "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})")},
      {"acknowledged", submit("finding-acknowledged", R"({"finding":"f-7","until":"2026-12-01",
         "reason_given":"collection is ordered"})")},
      {"held", submit("hold", R"({"hold":"placed","authority":"Agency, case 12",
         "scope":"all of 2026"})")},
      {"confirmed", submit("entries-confirmed", R"({"authorship":"not-mine",
         "confirmed_entries":[{"entry_number":3},{"entry_number":4}]})"),
       "technician"},
      {"adopted", submit("rules-adopted", R"({"pack":"england","edition":"2026-11",
         "layer":"base","digest":
           "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})"),
       "daemon"},
      {"access-changed",
       submit("access-change", R"({"access_act":"token-made","access_scope":"reads",
         "access_thing":"t1","access_until":"2027-03-01","account":"p1","done_by":"p1"})"),
       "daemon"},
      {"access-of-a-day",
       submit(
           "access-day",
           R"({"log_day":"2026-11-20","foreign_host_count":0,"foreign_origin_count":0,)"
           R"("locked_out_count":0,"log_line_count":0,"other_refusal_count":0,"sign_in_count":0,)"
           R"("too_many_count":0,"unknown_person_count":0,"wrong_role_count":0,)"
           R"("wrong_secret_count":0,"log_digest":
           "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})"),
       "daemon"},
      {"adopted-by-itself", submit("rules-adopted", R"({"pack":"ours","edition":"1",
         "layer":"local","digest":
           "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"})"),
       "daemon"},
  };
}

std::string added(const std::string& thing_class, const std::string& id,
                  const std::string& attributes) {
  return submit("register-change", R"({"act":"added","thing_class":")" + thing_class +
                                       R"(","thing":")" + id + R"(",)" + attributes + "}");
}

std::vector<Sample> register_samples() {
  return {
      {"site-in-full", added("workshop", "site", R"("name":"S","address":"A","time_zone":"UTC",
         "rule_pack":"us-federal","generator_category":"sqg","receiver_distance":"under-200-miles",
         "power_cut_off":"P","gas_cut_off":"G","spill_kit_place":"K","data_sheets_place":"D",
         "units":"us","number_format":"comma",
         "opening_days":[{"weekday":"monday"},{"weekday":"tuesday"}])")},
      {"stream-in-full", added("stream", "wipes", R"("name":"Wipes","low_code":"15 02 02",
         "hazardous":"yes","counted_by":"mass","waste_type":"solvent-wipes","national_code":"F003",
         "acute":"no","halogenated":"no","flash_point_c":12,"keep_apart_from":"Acids",
         "pictograms":[{"pictogram":"ghs02"},{"pictogram":"ghs07"}],
         "pictograms_source":"Data sheet of 2026-01-31")")},
      {"bin-in-full", added("container", "b9", R"("name":"Bin","stream":"oil","shape":"ibc",
         "capacity_l":1000,"working_limit_percent":90,"counts_waste":"no","bund_volume_l":1100,
         "inside_position":"lying","inside_diameter_mm":900,"inside_length_mm":1600,
         "placed":"outdoors","area":"central","emptied_daily":"yes","room":"hall")")},
      {"cylinder-in-full", added("cylinder", "n9", R"("name":"N9","gas":"nitrogen",
         "water_capacity_l":50,"working_pressure_bar":200,"star_mark":"yes","plus_mark":"no",
         "test_interval_years":{"value":60,"unit":"mo"},"interval_approval":"Agency 12",
         "content_m3":9.3,"shoulder_colour":"black","room":"hall","ownership":"rented")")},
      {"hose-added", added("tool", "h9", R"("name":"Hose","tool_type":"hose",
         "made_month":"2024-05","replace_by":"2030-05-31","room":"hall")")},
      {"gauge-added", added("gauge", "g9", R"("name":"G9","range_bar":40,"range_low_bar":-1,
         "accuracy_class":"en-1-6","full_scale_mark":"yes","dial_size_mm":100,
         "pressure_kind":"steady","usual_pressure_bar":20)")},
      {"reference-added", added("reference", "c9", R"("name":"Calibrator","serial_number":"7",
         "range_bar":70,"range_low_bar":-1,"uncertainty_percent":0.05,"certificate_number":"K 1",
         "laboratory":"L","certified_on":"2026-05-01","certificate_expires":"2027-05-01")")},
      {"room-added", added("room", "store", R"("name":"Gas store","volume_m3":30,
         "air_changes_per_h":2.5,"oxygen_alarm_fitted":"yes")")},
      {"cabinet-added", added("cabinet", "k9", R"("name":"Cabinet","capacity_l":120,
         "retention_l":{"value":5,"unit":"gal_us"},"room":"hall",
         "fire_resistance_min":{"value":1.5,"unit":"h"})")},
      {"product-added", added("product", "thinner", R"("name":"Thinner","flash_point_c":4,
         "boiling_point_c":110,"density_kg_m3":870,"density_source":"data sheet",
         "data_sheet_source":"Maker","data_sheet_date":"2025-01-31")")},
      {"person-added", added("person", "p9", R"("competences":[{"competence":"gauge-inspection",
         "evidence":"course 2026","valid_until":"2028-11-25"},{"competence":"spill-response"}])")},
      {"plant-added", added("plant", "x9", R"("name":"Air receiver","plant_type":"air-receiver",
         "serial_number":"7","location":"Yard","room":"hall","inspection_interval_days":365,
         "working_pressure_bar":10,"volume_l":270)")},
      {"closure-added", added("closure", "winter", R"("name":"Winter break",
         "first_day":"2026-12-24","last_day":"2027-01-03")")},
  };
}

}  // namespace

const std::vector<Sample>& samples() {
  static const std::vector<Sample> all = [] {
    std::vector<Sample> joined = bench_samples();
    for (const auto& more :
         {office_samples(), round_samples(), safety_samples(), register_samples()}) {
      joined.insert(joined.end(), more.begin(), more.end());
    }
    return joined;
  }();
  return all;
}

Json resubmission(const Accepted& accepted) {
  const entries::Content& content = accepted.content;
  JsonObject fields;
  const Json stored = entries::fields_json(content.fields);
  JsonArray confirmed;  // whatever was accepted as unusual was confirmed
  for (const auto& [name, value] : *stored.object()) {
    confirmed.emplace_back(name);
    fields.emplace_back(name, value.array() == nullptr
                                  ? as_typed(value, name, content.as_read)
                                  : typed_rows(*value.array(), name, content.as_read));
  }
  return JsonObject{{"id", base::format_uuid(content.id)},
                    {"kind", content.kind},
                    {"occurred_at", base::format_rfc3339(content.occurred_at)},
                    {"confirmed", std::move(confirmed)},
                    {"fields", std::move(fields)}};
}

}  // namespace benchwarden::forms
