#include "reports/waste_year.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

#include "reports/mass_figure.h"
#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using MonthSums = std::vector<WasteMonthFigures>;

/// The months that have begun, each as its own report has it.
MonthSums begun_months(const WasteYearInput& input) {
  MonthSums sums;
  for (int number = 1; number <= kMonthsOfYear; ++number) {
    WasteMonthFigures month =
        make_month_sums(input.state, input.basis.zone, {input.year, number}, input.basis.as_of);
    if (month.month_state == MonthState::kNotBegun) break;
    sums.push_back(std::move(month));
  }
  return sums;
}

const StreamFigures* stream_in(const WasteMonthFigures& month, const std::string& id) {
  const auto found = std::find_if(month.streams.begin(), month.streams.end(),
                                  [&](const auto& stream) { return stream.facts.id == id; });
  return found == month.streams.end() ? nullptr : &*found;
}

std::int64_t opening_of(const WasteMonthFigures& month, const std::string& stream) {
  std::int64_t sum = 0;
  for (const ContainerFigures& container : month.containers) {
    const bool counts = container.stream.id == stream && container.counts_waste;
    if (counts) sum += container.movement.opening;
  }
  return sum;
}

void add_mass(std::optional<std::int64_t>& sum, const std::optional<std::int64_t>& mass) {
  sum = sum && mass ? std::optional(*sum + *mass) : std::nullopt;
}

void add_month(StreamYear& stream, const WasteMonthFigures& month, std::int64_t opening) {
  StreamFigures of_month;
  of_month.facts = stream.sums.facts;
  of_month.arisen_mass = of_month.collected_mass = 0;
  if (const StreamFigures* found = stream_in(month, stream.sums.facts.id)) of_month = *found;
  stream.months.push_back({month.month, opening, of_month.arisen, of_month.collected,
                           of_month.standing - opening - of_month.arisen + of_month.collected,
                           of_month.standing, of_month.arisen_mass, of_month.collected_mass});
  stream.sums.arisen += of_month.arisen;
  stream.sums.collected += of_month.collected;
  stream.sums.standing = of_month.standing;
  stream.other += stream.months.back().other;
  add_mass(stream.sums.arisen_mass, of_month.arisen_mass);
  add_mass(stream.sums.collected_mass, of_month.collected_mass);
}

StreamYear stream_year(const WasteYearInput& input, const StreamFigures& first,
                       const MonthSums& months) {
  StreamYear stream;
  stream.sums.facts = first.facts;
  stream.sums.density_source = first.density_source;
  stream.sums.arisen_mass = stream.sums.collected_mass = 0;
  if (const tallies::Thing* thing = input.state.thing("stream", first.facts.id)) {
    stream.national_code = tallies::word(thing->attributes, "national_code");
    stream.waste_type = tallies::word(thing->attributes, "waste_type");
  }
  stream.opening = opening_of(months.front(), first.facts.id);
  std::int64_t opening = stream.opening;
  for (const WasteMonthFigures& month : months) {
    add_month(stream, month, opening);
    opening = stream.sums.standing;
  }
  stream.sums.standing_mass = stated_mass(first.facts, stream.sums.standing);
  return stream;
}

std::vector<StreamYear> stream_years(const WasteYearInput& input, const MonthSums& months) {
  std::map<std::string, const StreamFigures*> known;
  for (const WasteMonthFigures& month : months) {
    for (const StreamFigures& stream : month.streams) known.emplace(stream.facts.id, &stream);
  }
  std::vector<StreamYear> all;
  for (const auto& [id, first] : known) all.push_back(stream_year(input, *first, months));
  return all;
}

MassTotals year_totals(const std::vector<StreamYear>& streams, bool hazardous) {
  MassTotals totals;
  for (const StreamYear& stream : streams) {
    if (stream.sums.facts.hazardous != hazardous) continue;
    add_mass(totals.arisen, stream.sums.arisen_mass);
    add_mass(totals.collected, stream.sums.collected_mass);
    add_mass(totals.standing, stream.sums.standing_mass);
  }
  return totals;
}

std::vector<YearMonth> year_months(const WasteYearInput& input) {
  std::vector<YearMonth> all;
  for (int number = 1; number <= kMonthsOfYear; ++number) {
    const base::CivilMonth month{input.year, number};
    YearMonth one{
        month,
        state_of(on_the_clock(input.state, input.basis.zone, month, month, input.basis.as_of)),
        std::nullopt};
    const auto closing = input.closings.find(number);
    if (closing != input.closings.end()) one.closing = closing->second;
    all.push_back(one);
  }
  return all;
}

std::vector<CarrierFigures> carriers_of(const tallies::State& state,
                                        const std::vector<CollectedFigures>& consignments) {
  std::map<std::string, std::set<std::string>> collections;
  for (const CollectedFigures& one : consignments) {
    if (!one.carrier.empty()) collections[one.carrier].insert(one.collection);
  }
  std::vector<CarrierFigures> all;
  for (const auto& [id, of_carrier] : collections) {
    all.push_back({carrier_facts(state, id), of_carrier.size()});
  }
  return all;
}

template <class Item>
void append(std::vector<Item>& all, std::vector<Item> more) {
  std::move(more.begin(), more.end(), std::back_inserter(all));
}

YearQuality year_quality(const WasteYearInput& input) {
  YearQuality quality;
  for (int number = 1; number <= kMonthsOfYear; ++number) {
    const base::CivilMonth civil{input.year, number};
    const Month month =
        on_the_clock(input.state, input.basis.zone, civil, civil, input.basis.as_of);
    QualityFigures of_month = quality_of(entries_in(input.entries, month), input.state, month);
    append(quality.late, std::move(of_month.late));
    append(quality.corrections, std::move(of_month.corrections));
    append(quality.unconfirmed, std::move(of_month.unconfirmed));
    append(quality.disowned, std::move(of_month.disowned));
  }
  return quality;
}

}  // namespace

std::size_t count_collections(const std::vector<CollectedFigures>& consignments) {
  std::set<std::string_view> collections;
  for (const CollectedFigures& one : consignments) collections.insert(one.collection);
  return collections.size();
}

std::size_t count_documents_not_back(const std::vector<CollectedFigures>& consignments) {
  std::set<std::pair<std::string_view, std::string_view>> documents;
  for (const CollectedFigures& one : consignments) {
    if (!one.document_returned) documents.emplace(one.collection, one.document_number);
  }
  return documents.size();
}

WasteYearFigures make_waste_year(const WasteYearInput& input) {
  const Month year = on_the_clock(input.state, input.basis.zone, {input.year, 1},
                                  {input.year, kMonthsOfYear}, input.basis.as_of);
  WasteYearFigures figures;
  figures.frame = frame_of(input.state, input.basis, input.names, input.forms);
  figures.year = input.year;
  figures.from = year.zone.local(year.from);
  figures.until = year.zone.local(year.until);
  figures.state = state_of(year);
  if (input.begins.year >= input.year) figures.begins = input.begins;
  figures.months = year_months(input);
  const MonthSums months = begun_months(input);
  figures.streams = stream_years(input, months);
  figures.hazardous = year_totals(figures.streams, true);
  figures.other = year_totals(figures.streams, false);
  figures.consignments = collected_in(input.state, year);
  figures.open_documents = open_documents_of(input.state, year);
  figures.carriers = carriers_of(input.state, figures.consignments);
  figures.returns =
      returns_of(input.returns, figures.streams, figures.consignments, input.basis.zone);
  figures.generator_months = input.generator_months;
  figures.quality = year_quality(input);
  return figures;
}

}  // namespace benchwarden::reports
