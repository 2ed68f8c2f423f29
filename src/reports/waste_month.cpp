#include "reports/waste_month.h"

#include <algorithm>

#include "reports/mass_figure.h"
#include "reports/month_closing.h"
#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

std::optional<base::Timestamp> local(const Month& month,
                                     const std::optional<base::Instant>& instant) {
  return instant ? std::optional(month.zone.local(*instant)) : std::nullopt;
}

ContainerFigures container_figures(const tallies::State& state, const tallies::Level& level,
                                   const Month& month) {
  const tallies::Timeline& timeline = state.timeline(level.container);
  ContainerFigures figures;
  figures.id = level.container;
  figures.name = level.name;
  figures.stream = level.stream;
  figures.counts_waste = tallies::container_facts(state.under_care(), level.container).counts_waste;
  figures.retired = level.retired;
  figures.sealed = level.sealed;
  figures.amount = level.amount;
  figures.mass = stated_mass(level.stream, level.amount);
  figures.limit_permille = level.fraction_permille;
  figures.oldest_content = local(month, level.oldest_content);
  figures.movement = timeline.movement(month.from, month.until);
  if (const auto reading = timeline.last_reading(month.from, month.until)) {
    figures.reading = ReadingFigures{month.zone.local(reading->at), reading->seq, reading->reading,
                                     reading->logged};
  }
  return figures;
}

std::vector<ContainerFigures> all_containers(const tallies::State& state, const Month& month) {
  std::vector<ContainerFigures> all;
  for (const tallies::Level& level : tallies::levels(state, month.until)) {
    ContainerFigures figures = container_figures(state, level, month);
    const bool idle = figures.movement == tallies::Movement{} && !figures.reading;
    if (figures.retired && idle) continue;
    all.push_back(std::move(figures));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return a.stream.id < b.stream.id; });
  return all;
}

StreamFigures stream_figures(const tallies::State& state, const tallies::StreamFacts& facts,
                             const WasteMonthFigures& month_figures, const Month& month) {
  StreamFigures figures;
  figures.facts = facts;
  figures.arisen = tallies::arisen(state, facts.id, month.from, month.until);
  for (const ContainerFigures& container : month_figures.containers) {
    if (container.stream.id == facts.id && container.counts_waste) {
      figures.standing += container.amount;
    }
  }
  for (const CollectedFigures& collected : month_figures.collected) {
    if (collected.stream.id == facts.id) figures.collected += collected.amount;
  }
  figures.arisen_mass = stated_mass(facts, figures.arisen);
  figures.collected_mass = stated_mass(facts, figures.collected);
  figures.standing_mass = stated_mass(facts, figures.standing);
  return figures;
}

std::vector<StreamFigures> all_streams(const tallies::State& state,
                                       const WasteMonthFigures& month_figures, const Month& month) {
  std::vector<StreamFigures> all;
  for (const auto& [id, thing] : state.things("stream")) {
    const auto facts = tallies::stream_facts(state, id);
    if (!facts) continue;
    StreamFigures figures = stream_figures(state, *facts, month_figures, month);
    figures.density_source = tallies::word(thing.attributes, "density_source");
    const bool idle = figures.arisen == 0 && figures.collected == 0 && figures.standing == 0;
    if (thing.retired && idle) continue;
    all.push_back(std::move(figures));
  }
  return all;
}

void add(std::optional<std::int64_t>& total, const std::optional<std::int64_t>& mass) {
  total = total && mass ? std::optional(*total + *mass) : std::nullopt;
}

MassTotals totals_of(const std::vector<StreamFigures>& streams, bool hazardous) {
  MassTotals totals;
  for (const StreamFigures& stream : streams) {
    if (stream.facts.hazardous != hazardous) continue;
    add(totals.arisen, stream.arisen_mass);
    add(totals.collected, stream.collected_mass);
    add(totals.standing, stream.standing_mass);
  }
  return totals;
}

void sum_up(WasteMonthFigures& figures, const tallies::State& state, const Month& month) {
  figures.from = month.zone.local(month.from);
  figures.until = month.zone.local(month.until);
  figures.month_state = state_of(month);
  figures.containers = all_containers(state, month);
  figures.collected = collected_in(state, month);
  figures.streams = all_streams(state, figures, month);
  figures.hazardous = totals_of(figures.streams, true);
  figures.other = totals_of(figures.streams, false);
}

}  // namespace

MonthState state_of(const Month& month) {
  if (month.until == month.end) return MonthState::kOver;
  return month.until > month.from ? MonthState::kRunning : MonthState::kNotBegun;
}

Month on_the_clock(const tallies::State& state, const base::Zone& zone, base::CivilMonth first,
                   base::CivilMonth last, base::Instant as_of) {
  const base::Instant from = zone.start_of(first);
  const base::Instant end = zone.start_of(base::next_month(last));
  const base::Instant until = std::clamp(base::Instant{as_of.ms + 1}, from, end);
  return {zone, from, until, end, as_of, state.claims()};
}

WasteMonthFigures make_month_sums(const tallies::State& state, const base::Zone& zone,
                                  base::CivilMonth month, base::Instant as_of) {
  WasteMonthFigures figures;
  figures.month = month;
  sum_up(figures, state, on_the_clock(state, zone, month, month, as_of));
  return figures;
}

WasteMonthFigures make_waste_month(const WasteMonthInput& input) {
  const Month month =
      on_the_clock(input.state, input.basis.zone, input.month, input.month, input.basis.as_of);
  WasteMonthFigures figures;
  figures.frame = frame_of(input.state, input.basis, input.names, input.forms);
  figures.month = input.month;
  sum_up(figures, input.state, month);
  figures.open_documents = open_documents_of(input.state, month);
  const EntriesBySeq entries = entries_in(input.entries, month);
  figures.quality = quality_of(entries, input.state, month);
  tell_concerns(figures.quality, input, entries, month);
  figures.quality.register_changes = register_changes_after(input.entries, month);
  figures.effects = effects_in(input.state, entries, month);
  figures.outlook = input.outlook;
  tell_courses(figures, input, month);
  if (input.closing) {
    std::vector<const RecordedEntry*> of_month;
    for (const auto& [seq, recorded] : entries) of_month.push_back(recorded);
    figures.closing = closing_of(*input.closing, figures, of_month, month.zone, month.claims);
  }
  return figures;
}

}  // namespace benchwarden::reports
