#include "reports/amount_json.h"
#include "reports/waste_figures_json.h"
#include "reports/waste_month.h"

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;
using tallies::EventKind;

base::Json movement_json(const tallies::Movement& movement) {
  return base::JsonObject{{"opening", amount_json(movement.opening)},
                          {"added", amount_json(movement.added)},
                          {"moved_in", amount_json(movement.moved_in)},
                          {"moved_out", amount_json(movement.moved_out)},
                          {"taken", amount_json(movement.taken)},
                          {"emptied", amount_json(movement.emptied)},
                          {"corrections", amount_json(movement.corrections)},
                          {"closing", amount_json(movement.closing)}};
}

base::Json reading_json(const std::optional<ReadingFigures>& reading) {
  if (!reading) return nullptr;
  return base::JsonObject{{"entry", reading->seq},
                          {"read_at", base::format_rfc3339(reading->at)},
                          {"reading", amount_json(reading->reading)},
                          {"logged", amount_json(reading->logged)},
                          {"difference", amount_json(reading->reading - reading->logged)}};
}

base::Json container_json(const ContainerFigures& container) {
  base::Json limit;
  if (container.limit_permille) limit = base::Decimal{*container.limit_permille * 100};
  return base::JsonObject{{"container", container.id},
                          {"name", container.name},
                          {"stream", container.stream.id},
                          {"counts_waste", container.counts_waste},
                          {"retired", container.retired},
                          {"sealed", container.sealed},
                          {"unit", amount_unit_json(container.stream.counted_by)},
                          {"standing", amount_json(container.amount)},
                          {"standing_kg", mass_kg_json(container.mass)},
                          {"limit_percent", limit},
                          {"oldest_content", time_json(container.oldest_content)},
                          {"movement", movement_json(container.movement)},
                          {"last_reading", reading_json(container.reading)}};
}

std::string_view effect_code(EventKind effect) {
  switch (effect) {
    case EventKind::kAdded:
      return "added";
    case EventKind::kMovedIn:
      return "moved-in";
    case EventKind::kMovedOut:
      return "moved-out";
    case EventKind::kTaken:
      return "taken";
    case EventKind::kRead:
      return "read";
    case EventKind::kEmptied:
      return "emptied";
    case EventKind::kPlaced:
      return "placed";
    case EventKind::kSealed:
      break;
  }
  return "sealed";
}

base::Json effect_json(const EffectFigures& effect) {
  base::JsonObject object = entry_figures_json(effect.entry);
  base::JsonArray corrected_by;
  for (const std::uint64_t seq : effect.corrected_by) corrected_by.emplace_back(seq);
  object.emplace_back("container", effect.container);
  object.emplace_back("effect", effect_code(effect.effect));
  object.emplace_back("unit", amount_unit_json(effect.counted_by));
  object.emplace_back("change", effect.change ? amount_json(*effect.change) : base::Json());
  object.emplace_back("late", effect.late);
  object.emplace_back("struck_out", effect.struck);
  object.emplace_back("corrected_by", std::move(corrected_by));
  return object;
}

base::Json earlier_json(const EarlierFigures& earlier) {
  return base::JsonObject{
      {"entry", earlier.seq},
      {"corrected_by", earlier.corrected_by == 0 ? base::Json() : earlier.corrected_by},
      {"occurred_at", base::format_rfc3339(earlier.occurred_at)},
      {"recorded_at", base::format_rfc3339(earlier.recorded_at)}};
}

base::Json register_json(const RegisterFigures& change) {
  base::JsonObject object = entry_figures_json(change.by);
  base::JsonArray fields;
  for (const std::string& field : change.fields) fields.emplace_back(field);
  object.emplace_back("thing_class", change.thing_class);
  object.emplace_back("thing", change.thing);
  object.emplace_back("fields", std::move(fields));
  return object;
}

base::Json contaminated_json(const ContaminatedFigures& contaminated) {
  base::JsonObject object = entry_figures_json(contaminated.entry);
  object.emplace_back("contamination", contaminated.contamination);
  object.emplace_back("container", contaminated.container);
  object.emplace_back("volume_ml",
                      contaminated.volume ? amount_json(*contaminated.volume) : base::Json());
  return object;
}

base::Json between_streams_json(const BetweenStreamsFigures& between) {
  base::JsonObject object = entry_figures_json(between.entry);
  object.emplace_back("from_container", between.from);
  object.emplace_back("to_container", between.to);
  return object;
}

base::Json odd_level_json(const OddLevelFigures& odd) {
  return base::JsonObject{{"container", odd.container},
                          {"unit", amount_unit_json(odd.counted_by)},
                          {"standing", amount_json(odd.amount)}};
}

base::Json quality_json(const QualityFigures& quality) {
  return base::JsonObject{
      {"late", array_of(quality.late, entry_figures_json)},
      {"corrections", array_of(quality.corrections, correction_json)},
      {"unconfirmed", array_of(quality.unconfirmed, entry_figures_json)},
      {"disowned", array_of(quality.disowned, entry_figures_json)},
      {"for_earlier_months", array_of(quality.for_earlier_months, earlier_json)},
      {"register_changes", array_of(quality.register_changes, register_json)},
      {"contaminated", array_of(quality.contaminated, contaminated_json)},
      {"between_streams", array_of(quality.between_streams, between_streams_json)},
      {"below_zero", array_of(quality.below_zero, odd_level_json)},
      {"retired_not_empty", array_of(quality.retired_not_empty, odd_level_json)}};
}

base::Json outlook_json(const std::optional<Outlook>& outlook) {
  if (!outlook) return nullptr;
  base::Json planned;
  if (outlook->planned) {
    planned = base::JsonObject{{"collection", outlook->planned->collection},
                               {"day", base::format_date(outlook->planned->day)},
                               {"entry", outlook->planned->entry}};
  }
  return base::JsonObject{{"next_collection", std::move(planned)},
                          {"findings_over", outlook->over},
                          {"findings_due", outlook->due}};
}

base::Json filling_json(const LevelCourse& course) {
  const auto day = [](const std::optional<base::CivilDate>& one) {
    return one ? base::Json(base::format_date(*one)) : base::Json();
  };
  if (!course.filling)
    return base::JsonObject{{"container", course.container}, {"median", nullptr}};
  return base::JsonObject{{"container", course.container},
                          {"median", day(course.filling->median)},
                          {"earliest_80", day(course.filling->earliest_80)},
                          {"latest_80", day(course.filling->latest_80)}};
}

base::Json stream_course_json(const StreamCourse& course) {
  base::JsonArray months;
  for (const auto& [month, amount] : course.arisen) {
    months.push_back(
        base::JsonObject{{"month", base::format_month(month)}, {"arisen", amount_json(amount)}});
  }
  return base::JsonObject{{"stream", course.facts.id},
                          {"unit", amount_unit_json(course.facts.counted_by)},
                          {"months", std::move(months)}};
}

}  // namespace

base::JsonObject stream_json(const StreamFigures& stream) {
  base::Json density;
  // g/m³ are thousandths of kg/m³.
  if (stream.facts.density) density = base::Decimal{stream.facts.density->count()};
  return {{"stream", stream.facts.id},
          {"name", stream.facts.name},
          {"low_code", stream.facts.low_code},
          {"hazardous", stream.facts.hazardous},
          {"unit", amount_unit_json(stream.facts.counted_by)},
          {"arisen", amount_json(stream.arisen)},
          {"collected", amount_json(stream.collected)},
          {"standing", amount_json(stream.standing)},
          {"arisen_kg", mass_kg_json(stream.arisen_mass)},
          {"collected_kg", mass_kg_json(stream.collected_mass)},
          {"standing_kg", mass_kg_json(stream.standing_mass)},
          {"density_kg_m3", density},
          {"density_source", stream.density_source}};
}

base::Json collected_json(const CollectedFigures& collected) {
  return base::JsonObject{{"entry", collected.seq},
                          {"collection", collected.collection},
                          {"taken_at", base::format_rfc3339(collected.taken_at)},
                          {"document_number", collected.document_number},
                          {"carrier", collected.carrier},
                          {"carrier_name", collected.carrier_name},
                          {"container", collected.container},
                          {"stream", collected.stream.id},
                          {"unit", amount_unit_json(collected.stream.counted_by)},
                          {"collected", amount_json(collected.amount)},
                          {"collected_kg", mass_kg_json(collected.mass)},
                          {"stated_kg", mass_kg_json(collected.stated_mass)},
                          {"weighed_kg", mass_kg_json(collected.weighed_mass)},
                          {"document_returned", time_json(collected.document_returned)}};
}

base::Json open_json(const OpenDocument& open) {
  return base::JsonObject{{"collection", open.collection},
                          {"document_number", open.document_number},
                          {"taken_at", base::format_rfc3339(open.taken_at)}};
}

base::Json waste_month_json(const WasteMonthFigures& figures) {
  base::JsonObject report{{"report", "waste-month"},
                          {"month", base::format_month(figures.month)},
                          {"from", base::format_rfc3339(figures.from)},
                          {"until", base::format_rfc3339(figures.until)},
                          {"month_over", figures.month_state == MonthState::kOver}};
  for (base::JsonMember& member : frame_json(figures.frame)) report.push_back(std::move(member));
  report.emplace_back("closing", closing_json(figures.closing));
  report.emplace_back("streams", array_of(figures.streams, stream_json));
  report.emplace_back("hazardous_total", totals_json(figures.hazardous));
  report.emplace_back("other_total", totals_json(figures.other));
  report.emplace_back("containers", array_of(figures.containers, container_json));
  report.emplace_back("collected", array_of(figures.collected, collected_json));
  report.emplace_back("open_documents", array_of(figures.open_documents, open_json));
  report.emplace_back("data_quality", quality_json(figures.quality));
  report.emplace_back("outlook", outlook_json(figures.outlook));
  report.emplace_back("forecasts", array_of(figures.levels, filling_json));
  report.emplace_back("arisen_by_month", array_of(figures.courses, stream_course_json));
  report.emplace_back("entries", array_of(figures.effects, effect_json));
  return report;
}

}  // namespace benchwarden::reports
