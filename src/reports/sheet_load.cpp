#include "reports/sheet_load.h"

#include <algorithm>
#include <array>
#include <utility>

namespace benchwarden::reports {
namespace {

using tallies::EventKind;
using tallies::Record;

/// In the order they are printed.
constexpr std::array<std::string_view, 4> kHazards{"hazardous", "acute", "halogenated",
                                                   "flash_point_c"};
/// Entered in one country only: its absence says nothing.
constexpr std::string_view kAcute = "acute";

void tell_hazards(SheetLoad& load, const entries::Fields& stream) {
  for (const std::string_view name : kHazards) {
    if (const entries::FieldValue* value = entries::find_field(stream, name)) {
      load.hazards.push_back({std::string(name), *value});
    } else if (name != kAcute) {
      load.hazards_missing.emplace_back(name);
    }
  }
}

SheetTold told_by(const Record& record, const base::Zone& zone) {
  return {record.seq, zone.local(record.at), std::string(record.kind), record.fields()};
}

/// From when on what is told of the container is about what stands in it by then.
base::Instant standing_from(const tallies::Timeline& timeline, base::Instant until) {
  const tallies::Standing standing = timeline.standing_around(timeline.count_before(until));
  return standing.first == 0 ? base::kEarliest : timeline.events()[standing.first - 1].at;
}

bool suspects(const Record& record) {
  const entries::Fields fields = record.fields();
  const auto* contamination = entries::find_field_as<entries::Code>(fields, "contamination");
  return contamination != nullptr && contamination->slug != "none";
}

/// A suspicion goes with the content from container to container, `steps` moves back.
void find_suspicions(const tallies::State& state, const base::Zone& zone,
                     const std::string& container, base::Instant until, int steps,
                     std::vector<SheetTold>& found) {
  const tallies::Timeline& timeline = state.timeline(container);
  const base::Instant from = standing_from(timeline, until);
  for (const Record& record : state.records("container", container)) {
    const bool counts = !record.struck && record.at >= from && record.at < until;
    if (counts && suspects(record)) found.push_back(told_by(record, zone));
  }
  if (steps == 0) return;
  for (const tallies::Event& event : timeline.events()) {
    const bool came =
        event.kind == EventKind::kMovedIn && event.acts && event.at >= from && event.at < until;
    if (!came) continue;
    const std::string source = tallies::source_of(state, event);
    if (source.empty()) continue;
    // Content that was moved stood there until just then.
    find_suspicions(state, zone, source, event.at, steps - 1, found);
  }
}

std::vector<SheetTold> suspicions_of(const tallies::State& state, const base::Zone& zone,
                                     const std::string& container, base::Instant until) {
  constexpr int kMovesBack = 3;  // a can, a drum, a tank
  std::vector<SheetTold> found;
  find_suspicions(state, zone, container, until, kMovesBack, found);
  std::stable_sort(found.begin(), found.end(),
                   [](const SheetTold& a, const SheetTold& b) { return a.seq < b.seq; });
  const auto twins = std::unique(found.begin(), found.end(),
                                 [](const auto& a, const auto& b) { return a.seq == b.seq; });
  found.erase(twins, found.end());
  return found;
}

bool is_test(const Record& record, base::Instant from, base::Instant until) {
  return record.kind == "oil-test" && !record.struck && record.at >= from && record.at < until;
}

std::vector<SheetTold> tests_of(const tallies::State& state, const base::Zone& zone,
                                const SheetLoad& load, base::Instant until) {
  std::vector<SheetTold> tests;
  const Record* of_stream = nullptr;
  for (const Record& record : state.records("stream", load.stream.id)) {
    if (is_test(record, base::kEarliest, until)) of_stream = &record;
  }
  if (of_stream != nullptr) tests.push_back(told_by(*of_stream, zone));
  const base::Instant from = standing_from(state.timeline(load.container), until);
  for (const Record& record : state.records("container", load.container)) {
    if (is_test(record, from, until)) tests.push_back(told_by(record, zone));
  }
  return tests;
}

}  // namespace

SheetLoad load_told(const tallies::State& state, tallies::ContentAges& ages, const base::Zone& zone,
                    const std::string& container, base::Instant until) {
  SheetLoad load;
  load.container = container;
  if (const tallies::Thing* thing = state.thing("container", container)) {
    load.name = tallies::word(thing->attributes, "name");
  }
  load.stream = tallies::stream_of_container(state, container).value_or(tallies::StreamFacts{});
  if (const tallies::Thing* stream = state.thing("stream", load.stream.id)) {
    load.national_code = tallies::word(stream->attributes, "national_code");
    tell_hazards(load, stream->attributes);
  }
  const auto oldest = ages.oldest(container, until);
  if (oldest) load.accumulation_start = zone.local(*oldest);
  load.suspicions = suspicions_of(state, zone, container, until);
  load.tests = tests_of(state, zone, load, until);
  return load;
}

}  // namespace benchwarden::reports
