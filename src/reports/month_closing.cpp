#include "reports/month_closing.h"

#include <algorithm>
#include <map>
#include <utility>

#include "base/sha256.h"
#include "reports/amount_json.h"
#include "reports/waste_month.h"

namespace benchwarden::reports {
namespace {

StreamDifference difference_of(const StreamFigures& then, const StreamFigures& now) {
  return {now.facts,
          {then.arisen, now.arisen},
          {then.collected, now.collected},
          {then.standing, now.standing},
          {then.arisen_mass, now.arisen_mass},
          {then.collected_mass, now.collected_mass},
          {then.standing_mass, now.standing_mass}};
}

bool differs(const StreamDifference& difference) {
  const auto apart = [](const auto& pair) { return pair.then != pair.now; };
  return apart(difference.arisen) || apart(difference.collected) || apart(difference.standing) ||
         apart(difference.arisen_mass) || apart(difference.collected_mass) ||
         apart(difference.standing_mass);
}

/// A stream with the figures of one that nothing is told of: nothing, of which the mass is known.
StreamFigures nothing_of(const StreamFigures& stream) {
  StreamFigures none;
  none.facts = stream.facts;
  none.arisen_mass = none.collected_mass = none.standing_mass = 0;
  return none;
}

base::Json pair_json(const StreamDifference::Pair& pair) {
  return base::JsonObject{{"then", amount_json(pair.then)}, {"now", amount_json(pair.now)}};
}

base::Json pair_json(const StreamDifference::MassPair& pair) {
  return base::JsonObject{{"then", mass_kg_json(pair.then)}, {"now", mass_kg_json(pair.now)}};
}

base::Json difference_json(const StreamDifference& difference) {
  return base::JsonObject{{"stream", difference.facts.id},
                          {"name", difference.facts.name},
                          {"unit", amount_unit_json(difference.facts.counted_by)},
                          {"arisen", pair_json(difference.arisen)},
                          {"collected", pair_json(difference.collected)},
                          {"standing", pair_json(difference.standing)},
                          {"arisen_kg", pair_json(difference.arisen_mass)},
                          {"collected_kg", pair_json(difference.collected_mass)},
                          {"standing_kg", pair_json(difference.standing_mass)}};
}

base::Json stream_totals_json(const StreamFigures& stream) {
  return base::JsonObject{{"stream", stream.facts.id},
                          {"unit", amount_unit_json(stream.facts.counted_by)},
                          {"arisen", amount_json(stream.arisen)},
                          {"collected", amount_json(stream.collected)},
                          {"standing", amount_json(stream.standing)},
                          {"arisen_kg", mass_kg_json(stream.arisen_mass)},
                          {"collected_kg", mass_kg_json(stream.collected_mass)},
                          {"standing_kg", mass_kg_json(stream.standing_mass)}};
}

}  // namespace

std::vector<StreamDifference> differences_of(const std::vector<StreamFigures>& then,
                                             const std::vector<StreamFigures>& now) {
  std::map<std::string, std::pair<const StreamFigures*, const StreamFigures*>> by_id;
  for (const StreamFigures& stream : then) by_id[stream.facts.id].first = &stream;
  for (const StreamFigures& stream : now) by_id[stream.facts.id].second = &stream;
  std::vector<StreamDifference> all;
  for (const auto& [id, both] : by_id) {
    const auto [before, after] = both;
    const StreamDifference difference =
        difference_of(before != nullptr ? *before : nothing_of(*after),
                      after != nullptr ? *after : nothing_of(*before));
    if (differs(difference)) all.push_back(difference);
  }
  return all;
}

base::Json differences_json(const std::vector<StreamDifference>& differences) {
  base::JsonArray all;
  for (const StreamDifference& one : differences) all.push_back(difference_json(one));
  return all;
}

ClosingFigures closing_of(const MonthClosing& closing, const WasteMonthFigures& figures,
                          const std::vector<const RecordedEntry*>& entries, const base::Zone& zone,
                          const tallies::Claims& claims) {
  ClosingFigures found;
  found.entry = entry_figures(closing.entry, zone, claims);
  found.book_size = closing.book_size;
  found.digest = closing.digest;
  found.digest_holds = closing.digest_holds;
  found.statement = closing.statement;
  for (const RecordedEntry* recorded : entries) {
    if (recorded->entry.seq > closing.book_size && recorded->entry.seq != closing.entry.seq) {
      found.late.push_back(entry_figures(recorded->entry, zone, claims));
    }
    for (CorrectionFigures& correction : corrections_of(*recorded, zone, claims)) {
      if (correction.by.seq > closing.book_size) found.corrections.push_back(std::move(correction));
    }
  }
  found.differences = differences_of(closing.streams, figures.streams);
  return found;
}

base::Json closing_json(const std::optional<ClosingFigures>& closing) {
  if (!closing) return nullptr;
  base::JsonObject json = entry_figures_json(closing->entry);
  base::JsonArray late;
  for (const EntryFigures& entry : closing->late) late.push_back(entry_figures_json(entry));
  base::JsonArray corrections;
  for (const CorrectionFigures& one : closing->corrections) {
    corrections.push_back(correction_json(one));
  }
  const auto text = [](const std::string& words) { return words.empty() ? base::Json() : words; };
  json.emplace_back("book_size", closing->book_size);
  json.emplace_back("figures_digest", text(closing->digest));
  json.emplace_back("digest_holds",
                    closing->digest_holds ? base::Json(*closing->digest_holds) : base::Json());
  json.emplace_back("statement", text(closing->statement));
  json.emplace_back("late", std::move(late));
  json.emplace_back("corrections", std::move(corrections));
  json.emplace_back("differences", differences_json(closing->differences));
  return json;
}

base::Json totals_json(const MassTotals& totals) {
  return base::JsonObject{{"arisen_kg", mass_kg_json(totals.arisen)},
                          {"collected_kg", mass_kg_json(totals.collected)},
                          {"standing_kg", mass_kg_json(totals.standing)}};
}

base::Json month_totals_json(const WasteMonthFigures& figures) {
  base::JsonArray streams;
  for (const StreamFigures& stream : figures.streams) {
    const bool idle = stream.arisen == 0 && stream.collected == 0 && stream.standing == 0;
    if (!idle) streams.push_back(stream_totals_json(stream));
  }
  return base::JsonObject{{"month", base::format_month(figures.month)},
                          {"streams", std::move(streams)},
                          {"hazardous_total", totals_json(figures.hazardous)},
                          {"other_total", totals_json(figures.other)}};
}

std::string month_digest(const WasteMonthFigures& figures) {
  return base::to_hex(base::sha256(base::write_canonical_json(month_totals_json(figures))));
}

}  // namespace benchwarden::reports
