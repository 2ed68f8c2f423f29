#include <algorithm>

#include "reports/waste_month_parts.h"

namespace benchwarden::reports {
namespace {

using tallies::EventKind;

/// The emptying that a transfer of everything brings with it: it changes nothing that the transfer
/// does not tell, unless the log was below zero.
bool goes_without_saying(const tallies::Event& event, const tallies::Event* before) {
  return event.kind == EventKind::kEmptied && event.amount == 0 && before != nullptr &&
         before->seq == event.seq && before->kind == EventKind::kMovedOut;
}

std::optional<std::int64_t> change_of(const tallies::Event& event) {
  switch (event.kind) {
    case EventKind::kAdded:
    case EventKind::kMovedIn:
      return event.amount;
    case EventKind::kMovedOut:
    case EventKind::kTaken:
    case EventKind::kEmptied:
      return -event.amount;
    case EventKind::kRead:
    case EventKind::kPlaced:
    case EventKind::kSealed:
      return std::nullopt;
  }
  return std::nullopt;
}

/// What the list of entries has to say about the entry; the times are the event's own.
void tell_entry(EffectFigures& figures, const EntriesBySeq& entries, const Month& month) {
  const auto found = entries.find(figures.entry.seq);
  if (found == entries.end()) return;
  const RecordedEntry& recorded = *found->second;
  figures.entry = entry_figures(recorded.entry, month.zone, month.claims);
  figures.late = recorded.entry.recorded_at >= month.end;
  figures.struck = recorded.struck;
  for (const entries::Entry& correction : recorded.corrections) {
    figures.corrected_by.push_back(correction.seq);
  }
}

void tell_earlier(std::vector<EarlierFigures>& earlier, const std::vector<tallies::Mark>& marks,
                  const Month& month) {
  for (const tallies::Mark& mark : marks) {
    const bool tells = mark.occurred_at < month.from && mark.recorded_at >= month.from &&
                       mark.recorded_at < month.until;
    if (!tells) continue;
    earlier.push_back({mark.seq, mark.corrected_by, month.zone.local(mark.occurred_at),
                       month.zone.local(mark.recorded_at)});
  }
}

/// What its person has shown no PIN for since either, or says was not them.
void tell_claim(QualityFigures& quality, const EntryFigures& entry) {
  if (entry.person.verified) return;
  if (!entry.person.answer) {
    quality.unconfirmed.push_back(entry);
  } else if (entry.person.answer->authorship == entries::Authorship::kNotMine) {
    quality.disowned.push_back(entry);
  }
}

}  // namespace

EntriesBySeq entries_in(const std::vector<RecordedEntry>& entries, const Month& month) {
  EntriesBySeq found;
  for (const RecordedEntry& recorded : entries) {
    const base::Instant at = recorded.entry.content.occurred_at.instant;
    const bool counts = at >= month.from && at < month.until && !recorded.entry.content.corrects;
    if (counts) found.emplace(recorded.entry.seq, &recorded);
  }
  return found;
}

QualityFigures quality_of(const EntriesBySeq& entries, const tallies::State& state,
                          const Month& month) {
  QualityFigures quality;
  for (const auto& [seq, recorded] : entries) {
    const EntryFigures figures = entry_figures(recorded->entry, month.zone, month.claims);
    if (recorded->entry.recorded_at >= month.end) quality.late.push_back(figures);
    tell_claim(quality, figures);
    for (CorrectionFigures& correction : corrections_of(*recorded, month.zone, month.claims)) {
      tell_claim(quality, correction.by);
      quality.corrections.push_back(std::move(correction));
    }
  }
  tell_earlier(quality.for_earlier_months, state.lagging(), month);
  tell_earlier(quality.for_earlier_months, state.corrected(), month);
  return quality;
}

std::vector<EffectFigures> effects_in(const tallies::State& state, const EntriesBySeq& entries,
                                      const Month& month) {
  std::vector<EffectFigures> all;
  for (const auto& [container, thing] : state.things("container")) {
    const auto facts = tallies::container_facts(state.under_care(), container);
    const tallies::Event* before = nullptr;
    for (const tallies::Event& event : state.timeline(container).events()) {
      const bool tells =
          event.at >= month.from && event.at < month.until && !goes_without_saying(event, before);
      before = &event;
      if (!tells) continue;
      EffectFigures figures;
      figures.entry.seq = event.seq;
      figures.entry.occurred_at = month.zone.local(event.at);
      figures.container = container;
      figures.container_name = tallies::word(thing.attributes, "name");
      figures.counted_by = facts.counted_by;
      figures.effect = event.kind;
      figures.change = change_of(event);
      tell_entry(figures, entries, month);
      all.push_back(std::move(figures));
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
    return std::pair(a.entry.occurred_at.instant, a.entry.seq) <
           std::pair(b.entry.occurred_at.instant, b.entry.seq);
  });
  return all;
}

}  // namespace benchwarden::reports
