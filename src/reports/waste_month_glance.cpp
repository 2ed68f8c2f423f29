#include <utility>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/waste_month_tables.h"
#include "reports/waste_words.h"

// What a reader looks for first.

namespace benchwarden::reports {
namespace {

/// In the unit it is counted by, with the mass in brackets where that is another.
std::string both_units(const MonthParts& parts, const tallies::StreamFacts& stream,
                       std::int64_t amount, const std::optional<std::int64_t>& mass) {
  const std::string counted = amount_text(parts.wording, stream.counted_by, amount);
  if (stream.counted_by == tallies::CountedBy::kMass || !mass) return counted;
  return parts.wording.text(
      "figures.with_mass",
      {{"amount", counted},
       {"mass", amount_text(parts.wording, tallies::CountedBy::kMass, *mass)}});
}

std::string stream_glance(const MonthParts& parts, const StreamFigures& stream) {
  return parts.wording.text(
      "figures.stream",
      {{"stream", stream_text(parts.wording, stream.facts)},
       {"arisen", both_units(parts, stream.facts, stream.arisen, stream.arisen_mass)},
       {"collected", both_units(parts, stream.facts, stream.collected, stream.collected_mass)},
       {"standing", both_units(parts, stream.facts, stream.standing, stream.standing_mass)}});
}

std::string planned_text(const MonthParts& parts, const Outlook& outlook) {
  if (!outlook.planned) return parts.wording.text("figures.nothing_planned");
  return parts.wording.text("figures.planned", {{"collection", outlook.planned->collection},
                                                {"day", base::format_date(outlook.planned->day)},
                                                {"entry", count_text(outlook.planned->entry)}});
}

std::string open_text(const MonthParts& parts, const Outlook& outlook, const ReportData& data) {
  return parts.wording.text("figures.open",
                            {{"as_of", time_text(parts.figures.frame.as_of)},
                             {"over", count_text(outlook.over)},
                             {"due", count_text(outlook.due)},
                             {"sheet", data.definitions.get("findings-list").title}});
}

document::KeyFigures month_figures(const MonthParts& parts) {
  document::KeyFigures key =
      waste_key_figures(parts.figures.hazardous, parts.figures.other, parts.wording);
  key.figures[0].link = key.figures[1].link = "streams";
  key.figures[2].link = "collections";
  key.figures[3].link = "levels";
  return key;
}

}  // namespace

Blocks figure_blocks(const MonthParts& parts, const ReportData& data) {
  Blocks blocks;
  std::vector<std::string> lines;
  if (parts.figures.streams.empty()) {
    lines.push_back(parts.wording.text("streams.none"));
  } else {
    blocks.emplace_back(month_figures(parts));
  }
  for (const StreamFigures& stream : parts.figures.streams) {
    lines.push_back(stream_glance(parts, stream));
  }
  if (const auto& outlook = parts.figures.outlook) {
    lines.push_back(planned_text(parts, *outlook));
    if (parts.figures.frame.book_size > 0) lines.push_back(open_text(parts, *outlook, data));
  }
  blocks.emplace_back(document::Paragraph{base::join(lines, "\n")});
  return blocks;
}

}  // namespace benchwarden::reports
