#include "entries/leaf.h"
#include "reports/amount_json.h"
#include "reports/collection_sheet.h"
#include "reports/waste_figures_json.h"

namespace benchwarden::reports {
namespace {

base::Json sheet_told_json(const SheetTold& told) {
  return base::JsonObject{{"entry", told.seq},
                          {"kind", told.kind},
                          {"occurred_at", base::format_rfc3339(told.at)},
                          {"fields", entries::fields_json(told.fields)}};
}

base::Json sheet_load_json(const SheetLoad& load) {
  base::JsonArray missing;
  for (const std::string& field : load.hazards_missing) missing.emplace_back(field);
  return base::JsonObject{{"container", load.container},
                          {"name", load.name},
                          {"stream", load.stream.id},
                          {"stream_name", load.stream.name},
                          {"low_code", load.stream.low_code},
                          {"national_code", load.national_code},
                          {"hazards", entries::fields_json(load.hazards)},
                          {"hazards_not_entered", std::move(missing)},
                          {"unit", amount_unit_json(load.stream.counted_by)},
                          {"amount", load.amount ? amount_json(*load.amount) : base::Json()},
                          {"mass_kg", mass_kg_json(load.mass)},
                          {"stated_kg", mass_kg_json(load.stated_mass)},
                          {"weighed_kg", mass_kg_json(load.weighed_mass)},
                          {"emptied", load.emptied ? base::Json(*load.emptied) : base::Json()},
                          {"accumulation_start", time_json(load.accumulation_start)},
                          {"entry", load.seq},
                          {"suspicions", array_of(load.suspicions, sheet_told_json)},
                          {"tests", array_of(load.tests, sheet_told_json)}};
}

base::Json sheet_stage_json(const SheetStage& stage) {
  base::JsonObject object = entry_figures_json(stage.entry);
  object.emplace_back("stage", stage.stage);
  object.emplace_back("struck_out", stage.struck);
  object.emplace_back("fields", entries::fields_json(stage.told));
  object.emplace_back("corrections", array_of(stage.corrections, correction_json));
  return object;
}

std::string_view sheet_state_word(SheetState state) {
  if (state == SheetState::kDraft) return "draft";
  return state == SheetState::kTaken ? "taken" : "nothing-taken";
}

base::Json sheet_carrier_json(const CarrierFacts& carrier) {
  if (carrier.id.empty()) return nullptr;
  return base::JsonObject{{"carrier", carrier.id},
                          {"name", carrier.name},
                          {"registration_number", carrier.registration},
                          {"registration_expires", carrier.registration_expires},
                          {"telephone", carrier.telephone}};
}

}  // namespace

base::Json collection_sheet_json(const CollectionSheetFigures& figures) {
  base::JsonObject report{{"report", "collection-sheet"},
                          {"collection", figures.collection},
                          {"state", sheet_state_word(figures.state)}};
  for (base::JsonMember& member : frame_json(figures.frame)) report.push_back(std::move(member));
  base::JsonArray documents;
  for (const std::string& number : figures.documents) documents.emplace_back(number);
  base::JsonArray left;
  for (const auto& [container, name] : figures.left_behind) left.emplace_back(container);
  report.emplace_back("emergency_phone", figures.emergency_phone);
  report.emplace_back("carrier", sheet_carrier_json(figures.carrier));
  report.emplace_back("documents", std::move(documents));
  report.emplace_back("planned_for", figures.planned_for
                                         ? base::Json(base::format_date(*figures.planned_for))
                                         : base::Json());
  report.emplace_back("loads", array_of(figures.loads, sheet_load_json));
  report.emplace_back("total_volume_ml",
                      figures.total_volume ? amount_json(*figures.total_volume) : base::Json());
  report.emplace_back("total_mass_kg", mass_kg_json(figures.total_mass));
  report.emplace_back("left_behind", std::move(left));
  report.emplace_back("stages", array_of(figures.stages, sheet_stage_json));
  return report;
}

}  // namespace benchwarden::reports
