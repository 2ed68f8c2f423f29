#include <algorithm>
#include <set>

#include "reports/number_text.h"
#include "reports/table_lines.h"
#include "reports/waste_month_tables.h"

// The entries behind the totals, container by container.

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;
using tallies::EventKind;

const std::string& effect_text(EventKind effect, const ReportWording& wording) {
  switch (effect) {
    case EventKind::kAdded:
      return wording.text("effect.added");
    case EventKind::kMovedIn:
      return wording.text("effect.moved_in");
    case EventKind::kMovedOut:
      return wording.text("effect.moved_out");
    case EventKind::kTaken:
      return wording.text("effect.taken");
    case EventKind::kRead:
      return wording.text("effect.read");
    case EventKind::kEmptied:
      return wording.text("effect.emptied");
    case EventKind::kPlaced:
      return wording.text("effect.placed");
    case EventKind::kSealed:
      break;
  }
  return wording.text("effect.sealed");
}

std::vector<std::string> remarks(const EffectFigures& effect, const ReportWording& wording) {
  std::vector<std::string> lines;
  if (effect.late) {
    lines.push_back(
        wording.text("entries.late", {{"recorded", time_text(effect.entry.recorded_at)}}));
  }
  for (std::size_t i = 0; i < effect.corrected_by.size(); ++i) {
    // Nothing is corrected after it was struck out.
    const bool strikes = effect.struck && i + 1 == effect.corrected_by.size();
    const ReportWording::Values by = {{"entry", count_text(effect.corrected_by[i])}};
    lines.push_back(strikes ? wording.text("correction.struck_short", by)
                            : wording.text("correction.short", by));
  }
  return lines;
}

TableLine effect_line(const MonthParts& parts, const EffectFigures& effect) {
  TableLine line;
  line.name = std::to_string(effect.entry.seq) + " " + effect.container;
  line.cells["entry"] = count_cell(effect.entry.seq);
  line.cells["occurred_at"] = text_cell(time_text(effect.entry.occurred_at),
                                        base::format_rfc3339(effect.entry.occurred_at));
  line.cells["kind"] = text_cell(parts.texts.kind(effect.entry.kind), effect.entry.kind);
  line.cells["effect"] = text_cell(effect_text(effect.effect, parts.wording));
  if (effect.change) line.cells["change"] = number_cell(*effect.change);
  line.cells["person"] = text_cell(parts.texts.person(effect.entry.person), effect.entry.person.id);
  line.details = remarks(effect, parts.wording);
  return line;
}

/// What changed the log of one container, in order of time.
using EffectsOf = std::vector<const EffectFigures*>;

EffectsOf effects_of(const WasteMonthFigures& figures, const std::string& container) {
  EffectsOf all;
  for (const EffectFigures& effect : figures.effects) {
    if (effect.container == container) all.push_back(&effect);
  }
  return all;
}

/// Containers of which something is told: in order of the balance, then those that stand in it no
/// more.
std::vector<std::string> told_containers(const WasteMonthFigures& figures) {
  std::set<std::string> told;
  for (const EffectFigures& effect : figures.effects) told.insert(effect.container);
  std::vector<std::string> order;
  for (const ContainerFigures& container : figures.containers) {
    if (told.erase(container.id) > 0) order.push_back(container.id);
  }
  order.insert(order.end(), told.begin(), told.end());
  return order;
}

/// What the rows add up to, and what the balance says: closing less opening. Rows stand as they
/// are after corrections, and what was struck out stands with 0.
TableLine change_line(const MonthParts& parts, const EffectsOf& effects) {
  TableLine line;
  line.kind = document::RowKind::kTotal;
  line.name = "total";
  line.cells["occurred_at"] = text_cell("", "total");
  line.cells["kind"] = text_cell(parts.wording.text("entries.total"), "total");
  std::int64_t sum = 0;
  for (const EffectFigures* effect : effects) sum += effect->change.value_or(0);
  line.cells["change"] = number_cell(sum);
  return line;
}

}  // namespace

std::string entry_anchor(std::uint64_t seq) { return "entry-" + std::to_string(seq); }

std::string entries_anchor(const std::string& container) { return "entries-" + container; }

std::string entries_link(const MonthParts& parts, const std::string& container) {
  const auto& effects = parts.figures.effects;
  const bool any = std::any_of(effects.begin(), effects.end(), [&](const EffectFigures& effect) {
    return effect.container == container;
  });
  return any ? entries_anchor(container) : "";
}

Blocks entry_blocks(const MonthParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks;
  std::set<std::uint64_t> anchored;  // an entry that did something to two containers has two rows
  for (const std::string& container : told_containers(parts.figures)) {
    const EffectsOf effects = effects_of(parts.figures, container);
    blocks.emplace_back(
        document::Heading{3, parts.texts.thing(container, effects.front()->container_name),
                          entries_anchor(container)});
    std::vector<TableLine> lines;
    for (const EffectFigures* effect : effects) {
      lines.push_back(effect_line(parts, *effect));
      if (anchored.insert(effect->entry.seq).second) {
        lines.back().anchor = entry_anchor(effect->entry.seq);
      }
    }
    lines.push_back(change_line(parts, effects));
    const bool volume = effects.front()->counted_by == CountedBy::kVolume;
    const TableWords words{"entries-" + container, wording.text("entries.caption"), ""};
    blocks.emplace_back(lay_out(section, lines, words, volume ? "l" : "kg", wording));
  }
  if (blocks.empty()) blocks = {document::Paragraph{wording.text("entries.none")}};
  return blocks;
}

}  // namespace benchwarden::reports
