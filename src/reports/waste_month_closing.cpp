#include <utility>

#include "reports/number_text.h"
#include "reports/waste_month_tables.h"
#include "reports/waste_words.h"

// What became of a month since its figures were signed.

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;

std::string mass_text(const MonthParts& parts, const std::optional<std::int64_t>& mass) {
  return mass ? amount_text(parts.wording, CountedBy::kMass, *mass)
              : parts.wording.text("word.no_figure");
}

std::string closed_line(const MonthParts& parts, const ClosingFigures& closing) {
  return parts.wording.text("closing.closed_line",
                            {{"entry", count_text(closing.entry.seq)},
                             {"person", parts.texts.person(closing.entry.person)},
                             {"recorded", time_text(closing.entry.recorded_at)},
                             {"size", count_text(closing.book_size)}});
}

std::string arrived_late_line(const MonthParts& parts, const EntryFigures& entry) {
  return parts.wording.text("closing.late_line", late_values(parts, entry));
}

std::string difference_line(const MonthParts& parts, const StreamDifference& one) {
  const CountedBy by = one.facts.counted_by;
  const auto pair = [&](const StreamDifference::Pair& amounts,
                        const StreamDifference::MassPair& masses) {
    if (by == CountedBy::kMass) {
      return parts.wording.text("closing.pair", {{"then", mass_text(parts, masses.then)},
                                                 {"now", mass_text(parts, masses.now)}});
    }
    return parts.wording.text("closing.pair_both",
                              {{"then", amount_text(parts.wording, by, amounts.then)},
                               {"now", amount_text(parts.wording, by, amounts.now)},
                               {"then_mass", mass_text(parts, masses.then)},
                               {"now_mass", mass_text(parts, masses.now)}});
  };
  return parts.wording.text("closing.difference_line",
                            {{"stream", one.facts.name},
                             {"arisen", pair(one.arisen, one.arisen_mass)},
                             {"collected", pair(one.collected, one.collected_mass)},
                             {"standing", pair(one.standing, one.standing_mass)}});
}

}  // namespace

Blocks closing_blocks(const MonthParts& parts) {
  const ReportWording& wording = parts.wording;
  const auto& closing = parts.figures.closing;
  if (!closing) return {document::Paragraph{wording.text("closing.none")}};
  document::NoteBox box;
  box.title = closed_line(parts, *closing);
  if (!closing->statement.empty()) {
    box.lines.push_back(wording.text("closing.statement", {{"statement", closing->statement}}));
  }
  if (closing->digest_holds == false) box.lines.push_back(wording.text("closing.digest_differs"));
  for (const EntryFigures& entry : closing->late) {
    box.lines.push_back(arrived_late_line(parts, entry));
  }
  for (const CorrectionFigures& one : closing->corrections) {
    box.lines.push_back(corrected_line(parts, one));
  }
  if (closing->late.empty() && closing->corrections.empty()) {
    box.lines.push_back(wording.text("closing.nothing_since"));
    // A density or a month before this one moves figures too.
    if (!closing->differences.empty()) box.lines.push_back(wording.text("closing.from_elsewhere"));
  }
  for (const StreamDifference& one : closing->differences) {
    box.lines.push_back(difference_line(parts, one));
  }
  if (closing->differences.empty()) box.lines.push_back(wording.text("closing.same_figures"));
  return {std::move(box)};
}

}  // namespace benchwarden::reports
