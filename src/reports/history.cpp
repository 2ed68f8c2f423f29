#include "reports/history.h"

#include <algorithm>

#include "entries/leaf.h"
#include "tallies/facts.h"

namespace benchwarden::reports {
namespace {

/// What was typed in another unit, where the field still says what was typed: of the entry itself
/// unless a correction changed the field, else of the last correction that did.
std::vector<entries::AsRead> typed_in(const RecordedEntry& recorded,
                                      const std::vector<CorrectionFigures>& corrections) {
  std::vector<entries::AsRead> typed = recorded.entry.content.as_read;
  for (std::size_t i = 0; i < corrections.size(); ++i) {
    for (const FieldChange& change : corrections[i].changes) {
      std::erase_if(typed, [&](const entries::AsRead& old) { return old.field == change.field; });
      for (const entries::AsRead& now : recorded.corrections[i].content.as_read) {
        if (now.field == change.field) typed.push_back(now);
      }
    }
  }
  return typed;
}

std::vector<HistoryLine> lines_of(const std::vector<RecordedEntry>& entries, const Basis& basis,
                                  const tallies::Claims& claims) {
  std::vector<HistoryLine> lines;
  for (const RecordedEntry& recorded : entries) {
    if (recorded.entry.content.occurred_at.instant > basis.as_of) continue;
    lines.push_back(history_line(recorded, basis.zone, claims));
  }
  return lines;
}

base::Json line_json(const HistoryLine& line) {
  base::JsonObject object = entry_figures_json(line.entry);
  object.emplace_back("struck_out", line.struck);
  object.emplace_back("fields", entries::fields_json(line.fields));
  const auto* pressure =
      entries::find_field_as<quantities::Quantity>(line.fields, "gauge_pressure_bar");
  const auto psi = pressure == nullptr ? std::nullopt : whole_psi(*pressure);
  if (psi) object.emplace_back("gauge_pressure_psi", *psi);
  base::JsonObject typed;
  for (const entries::AsRead& read : line.typed) {
    typed.emplace_back(read.field, base::JsonObject{{"value", read.value}, {"unit", read.unit}});
  }
  object.emplace_back("as_read", std::move(typed));
  base::JsonArray corrections;
  for (const CorrectionFigures& correction : line.corrections) {
    corrections.push_back(correction_json(correction));
  }
  object.emplace_back("corrections", std::move(corrections));
  return object;
}

}  // namespace

HistoryLine history_line(const RecordedEntry& recorded, const base::Zone& zone,
                         const tallies::Claims& claims) {
  HistoryLine line;
  line.entry = entry_figures(recorded.entry, zone, claims);
  line.fields = recorded.effective;
  line.struck = recorded.struck;
  line.corrections = corrections_of(recorded, zone, claims);
  line.typed = typed_in(recorded, line.corrections);
  return line;
}

base::Json history_lines_json(const std::vector<HistoryLine>& lines) {
  base::JsonArray array;
  for (const HistoryLine& line : lines) array.push_back(line_json(line));
  return array;
}

std::optional<std::int64_t> whole_psi(const quantities::Quantity& pressure) {
  const auto psi = quantities::convert(pressure, *quantities::find_unit("psi"));
  if (!psi) return std::nullopt;
  return base::divide_round_half_away(psi->value.thousandths, 1'000);
}

HistoryFigures make_history(const HistoryInput& input) {
  HistoryFigures figures{frame_of(input.state, input.basis, input.names, input.forms),
                         input.basis.zone,
                         input.thing_class,
                         input.id,
                         {},
                         false,
                         false,
                         true,
                         {},
                         {},
                         {}};
  if (const tallies::Thing* thing = input.state.thing(input.thing_class, input.id)) {
    figures.known = true;
    figures.name = tallies::word(thing->attributes, "name");
    figures.retired = thing->retired;
    figures.in_service = thing->in_service;
    figures.attributes = thing->attributes;
  }
  figures.checks = lines_of(input.checks, input.basis, input.state.claims());
  figures.changes = lines_of(input.changes, input.basis, input.state.claims());
  std::stable_sort(figures.checks.begin(), figures.checks.end(), [](const auto& a, const auto& b) {
    return std::pair(a.entry.occurred_at.instant, a.entry.seq) <
           std::pair(b.entry.occurred_at.instant, b.entry.seq);
  });
  std::stable_sort(figures.changes.begin(), figures.changes.end(),
                   [](const auto& a, const auto& b) { return a.entry.seq < b.entry.seq; });
  return figures;
}

base::JsonObject history_json(const HistoryFigures& figures, const std::string& report,
                              const std::string& subject_member) {
  base::JsonObject json{{"report", report}, {subject_member, figures.id}};
  for (base::JsonMember& member : frame_json(figures.frame)) json.push_back(std::move(member));
  base::Json thing;
  if (figures.known) {
    thing = base::JsonObject{{"id", figures.id},
                             {"retired", figures.retired},
                             {"in_service", figures.in_service},
                             {"attributes", entries::fields_json(figures.attributes)}};
  }
  json.emplace_back("register", thing);
  json.emplace_back("checks", history_lines_json(figures.checks));
  json.emplace_back("changes", history_lines_json(figures.changes));
  return json;
}

}  // namespace benchwarden::reports
