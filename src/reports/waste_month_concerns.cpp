#include <algorithm>

#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using tallies::EventKind;

std::string container_name(const tallies::State& state, std::string_view container) {
  const tallies::Thing* thing = state.thing("container", container);
  return thing == nullptr ? std::string() : std::string(tallies::word(thing->attributes, "name"));
}

std::vector<ContaminatedFigures> contaminated_in(const tallies::State& state,
                                                 const EntriesBySeq& entries, const Month& month) {
  std::vector<ContaminatedFigures> all;
  for (const auto& [seq, recorded] : entries) {
    const entries::Fields& fields = recorded->effective;
    const auto* contamination = entries::find_field_as<entries::Code>(fields, "contamination");
    if (recorded->struck || contamination == nullptr || contamination->slug == "none") continue;
    ContaminatedFigures figures;
    figures.entry = entry_figures(recorded->entry, month.zone, month.claims);
    figures.contamination = contamination->slug;
    figures.container = tallies::word(fields, "container");
    figures.container_name = container_name(state, figures.container);
    if (const auto volume = tallies::measure(fields, "volume_ml", "ml")) {
      figures.volume = quantities::microlitres(*volume).count();
    }
    all.push_back(std::move(figures));
  }
  return all;
}

/// Where the waste of one entry came from and where it went.
struct Ends {
  std::string from;
  std::string to;
};

std::map<std::uint64_t, Ends> ends_in(const tallies::State& state, const Month& month) {
  std::map<std::uint64_t, Ends> by_seq;
  for (const auto& [container, thing] : state.things("container")) {
    for (const tallies::Event& event : state.timeline(container).events()) {
      if (event.at < month.from || event.at >= month.until || !event.acts) continue;
      if (event.kind == EventKind::kMovedOut || event.kind == EventKind::kEmptied) {
        by_seq[event.seq].from = container;
      } else if (event.kind == EventKind::kMovedIn || event.kind == EventKind::kAdded) {
        by_seq[event.seq].to = container;
      }
    }
  }
  return by_seq;
}

std::vector<BetweenStreamsFigures> between_streams_in(const tallies::State& state,
                                                      const EntriesBySeq& entries,
                                                      const Month& month) {
  std::vector<BetweenStreamsFigures> all;
  for (const auto& [seq, ends] : ends_in(state, month)) {
    const auto recorded = entries.find(seq);
    const auto from = tallies::stream_of_container(state, ends.from);
    const auto to = tallies::stream_of_container(state, ends.to);
    if (!from || !to || from->id == to->id || recorded == entries.end()) continue;
    all.push_back({entry_figures(recorded->second->entry, month.zone, month.claims), ends.from,
                   container_name(state, ends.from), from->name, ends.to,
                   container_name(state, ends.to), to->name});
  }
  return all;
}

OddLevelFigures level_figures(const tallies::State& state, const std::string& container,
                              std::int64_t amount) {
  const auto facts = tallies::container_facts(state.under_care(), container);
  return {container, container_name(state, container), facts.counted_by, facts.counts_waste,
          amount};
}

/// Whether the container was retired before the end; the register says only that it is by now.
bool retired_by_the_end(const tallies::Thing& thing, const WasteMonthInput& input,
                        const Month& month) {
  if (!thing.retired) return false;
  const auto found = std::find_if(
      input.entries.begin(), input.entries.end(),
      [&](const RecordedEntry& recorded) { return recorded.entry.seq == thing.changed_seq; });
  return found == input.entries.end() || found->entry.content.occurred_at.instant < month.until;
}

}  // namespace

void tell_concerns(QualityFigures& quality, const WasteMonthInput& input,
                   const EntriesBySeq& entries, const Month& month) {
  const tallies::State& state = input.state;
  quality.contaminated = contaminated_in(state, entries, month);
  quality.between_streams = between_streams_in(state, entries, month);
  for (const auto& [container, thing] : state.things("container")) {
    const tallies::Timeline& timeline = state.timeline(container);
    const std::int64_t amount = timeline.level_at(month.until);
    if (amount < 0) quality.below_zero.push_back(level_figures(state, container, amount));
    const bool holds = amount > 0 || timeline.holds_unmeasured(month.until);
    if (holds && retired_by_the_end(thing, input, month)) {
      quality.retired_not_empty.push_back(
          level_figures(state, container, std::max<std::int64_t>(amount, 0)));
    }
  }
}

}  // namespace benchwarden::reports
