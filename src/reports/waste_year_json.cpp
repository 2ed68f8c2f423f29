#include "reports/amount_json.h"
#include "reports/month_closing.h"
#include "reports/waste_figures_json.h"
#include "reports/waste_year.h"

namespace benchwarden::reports {
namespace {

base::Json stream_month_json(const StreamMonth& month) {
  return base::JsonObject{{"month", base::format_month(month.month)},
                          {"opening", amount_json(month.opening)},
                          {"arisen", amount_json(month.arisen)},
                          {"collected", amount_json(month.collected)},
                          {"other", amount_json(month.other)},
                          {"closing", amount_json(month.closing)},
                          {"arisen_kg", mass_kg_json(month.arisen_mass)},
                          {"collected_kg", mass_kg_json(month.collected_mass)}};
}

base::Json stream_year_json(const StreamYear& stream) {
  base::JsonObject object = stream_json(stream.sums);
  object.emplace_back("national_code", stream.national_code);
  object.emplace_back("opening", amount_json(stream.opening));
  object.emplace_back("other", amount_json(stream.other));
  object.emplace_back("months", array_of(stream.months, stream_month_json));
  return object;
}

std::string_view state_word(MonthState state) {
  if (state == MonthState::kOver) return "over";
  return state == MonthState::kRunning ? "running" : "not-begun";
}

base::Json year_month_json(const YearMonth& month) {
  base::Json closed;
  if (month.closing) {
    closed = base::JsonObject{{"entry", month.closing->entry},
                              {"figures_as_signed", month.closing->holds}};
  }
  return base::JsonObject{{"month", base::format_month(month.month)},
                          {"state", state_word(month.state)},
                          {"closed", std::move(closed)}};
}

base::Json carrier_json(const CarrierFigures& carrier) {
  return base::JsonObject{{"carrier", carrier.facts.id},
                          {"name", carrier.facts.name},
                          {"registration_number", carrier.facts.registration},
                          {"registration_expires", carrier.facts.registration_expires},
                          {"collections", carrier.collections}};
}

base::Json thousandths_json(const std::optional<std::int64_t>& thousandths) {
  return thousandths ? base::Json(base::Decimal{*thousandths}) : base::Json();
}

base::Json return_line_json(const ReturnLine& line) {
  base::JsonArray streams;
  for (const std::string& stream : line.streams) streams.emplace_back(stream);
  return base::JsonObject{{"quarter", line.quarter == 0 ? base::Json() : base::Json(line.quarter)},
                          {"code", line.code},
                          {"streams", std::move(streams)},
                          {"mass_kg", mass_kg_json(line.mass)},
                          {"amount", thousandths_json(line.thousandths)},
                          {"weighed", thousandths_json(line.weighed_thousandths)}};
}

base::Json return_json(const ReturnFigures& figures) {
  const ReturnDefinition& asked = figures.asked;
  return base::JsonObject{{"pack", figures.pack},
                          {"return", asked.id},
                          {"citation", asked.citation},
                          {"confidence", findings::word(asked.confidence)},
                          {"unit", figures.lines.empty() ? base::Json() : base::Json(asked.unit)},
                          {"lines", array_of(figures.lines, return_line_json)}};
}

base::Json generator_json(const findings::GeneratorMonth& month) {
  return base::JsonObject{{"month", base::format_month(month.month)},
                          {"not_acute", amount_json(month.not_acute)},
                          {"acute", amount_json(month.acute)},
                          {"spill_residue", amount_json(month.spill_residue)},
                          {"unit", "g"},
                          {"unweighed", month.unweighed},
                          {"category", month.category.empty() ? base::Json() : month.category}};
}

base::Json year_quality_json(const YearQuality& quality) {
  return base::JsonObject{{"late", array_of(quality.late, entry_figures_json)},
                          {"corrections", array_of(quality.corrections, correction_json)},
                          {"unconfirmed", array_of(quality.unconfirmed, entry_figures_json)},
                          {"disowned", array_of(quality.disowned, entry_figures_json)}};
}

}  // namespace

base::Json waste_year_json(const WasteYearFigures& figures) {
  base::JsonObject report{
      {"report", "waste-year"},
      {"year", figures.year},
      {"from", base::format_rfc3339(figures.from)},
      {"until", base::format_rfc3339(figures.until)},
      {"year_over", figures.state == MonthState::kOver},
      {"book_begins",
       figures.begins ? base::Json(base::format_month(*figures.begins)) : base::Json()}};
  for (base::JsonMember& member : frame_json(figures.frame)) report.push_back(std::move(member));
  report.emplace_back("months", array_of(figures.months, year_month_json));
  report.emplace_back("streams", array_of(figures.streams, stream_year_json));
  report.emplace_back("hazardous_total", totals_json(figures.hazardous));
  report.emplace_back("other_total", totals_json(figures.other));
  report.emplace_back("consignments", array_of(figures.consignments, collected_json));
  report.emplace_back("open_documents", array_of(figures.open_documents, open_json));
  report.emplace_back("carriers", array_of(figures.carriers, carrier_json));
  report.emplace_back("returns", array_of(figures.returns, return_json));
  report.emplace_back("generator_months", array_of(figures.generator_months, generator_json));
  report.emplace_back("data_quality", year_quality_json(figures.quality));
  return report;
}

}  // namespace benchwarden::reports
