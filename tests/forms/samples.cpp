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
      {"planned", submit("collection", R"({"collection":"c-2026-11","stage":"planned",
         "carrier":"c1","planned_date":"2026-11-30"})")},
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
      {"end-accepted", submit("end-accepted", kEndAccepted), "daemon"},
      {"end-without-record", submit("end-accepted", kEndWithoutRecord), "daemon"},
  };
}

}  // namespace

const std::vector<Sample>& samples() {
  static const std::vector<Sample> all = [] {
    std::vector<Sample> joined = bench_samples();
    const std::vector<Sample> office = office_samples();
    joined.insert(joined.end(), office.begin(), office.end());
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
