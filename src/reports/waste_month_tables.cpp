#include "reports/waste_month_tables.h"

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/table_lines.h"
#include "reports/waste_words.h"

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;

bool by_volume(const tallies::StreamFacts& stream) {
  return stream.counted_by == CountedBy::kVolume;
}

/// How far the log reaches: to the end of a month that is over, else to what was recorded last.
const base::Timestamp& up_to(const WasteMonthFigures& figures) {
  return figures.month_state == MonthState::kOver ? figures.until : figures.frame.as_of;
}

TableLine stream_line(const MonthParts& parts, const StreamFigures& stream) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = stream.facts.id;
  line.cells["stream"] =
      linked(text_cell(stream.facts.name, stream.facts.id), stream_anchor(stream.facts.id));
  line.cells["low_code"] = text_cell(code_text(stream.facts), stream.facts.low_code);
  line.cells["hazardous"] =
      text_cell(wording.yes_no(stream.facts.hazardous), stream.facts.hazardous ? "yes" : "no");
  line.cells["arisen_kg"] = number_or_none(stream.arisen_mass, wording);
  line.cells["arisen_l"] = litres_cell(stream.facts, stream.arisen, wording);
  line.cells["collected_kg"] = number_or_none(stream.collected_mass, wording);
  line.cells["collected_l"] = litres_cell(stream.facts, stream.collected, wording);
  line.cells["standing_kg"] = number_or_none(stream.standing_mass, wording);
  line.cells["standing_l"] = litres_cell(stream.facts, stream.standing, wording);
  return line;
}

bool any_stream(const WasteMonthFigures& figures, bool hazardous) {
  for (const StreamFigures& stream : figures.streams) {
    if (stream.facts.hazardous == hazardous) return true;
  }
  return false;
}

TableLine level_line(const MonthParts& parts, const ContainerFigures& container) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = container.id;
  line.cells["container"] = linked(text_cell(container_text(parts, container), container.id),
                                   entries_link(parts, container.id));
  line.cells["stream"] = text_cell(container.stream.name, container.stream.id);
  line.cells["standing_l"] = litres_cell(container.stream, container.amount, wording);
  line.cells["standing_kg"] = number_or_none(container.mass, wording);
  // A thousandth of the limit is a tenth of a percent.
  line.cells["limit_percent"] = container.limit_permille
                                    ? number_cell(*container.limit_permille * 100'000)
                                    : no_cell(wording);
  line.cells["oldest_content"] =
      container.oldest_content ? text_cell(date_text(*container.oldest_content)) : no_cell(wording);
  return line;
}

}  // namespace

std::string container_text(const MonthParts& parts, const ContainerFigures& container) {
  std::string text = parts.texts.thing(container.id, container.name);
  if (!container.counts_waste) text = parts.wording.text("word.working_bin", {{"thing", text}});
  if (container.sealed) text = parts.wording.text("word.sealed", {{"thing", text}});
  if (container.retired) text = parts.wording.text("word.retired", {{"thing", text}});
  return text;
}

Blocks stream_blocks(const MonthParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  std::vector<std::string> densities;
  for (const StreamFigures& stream : parts.figures.streams) {
    lines.push_back(stream_line(parts, stream));
    if (by_volume(stream.facts)) densities.push_back(density_text(wording, stream));
  }
  if (any_stream(parts.figures, true)) {
    lines.push_back(mass_total_line(wording.text("streams.hazardous_total"), "hazardous-total",
                                    parts.figures.hazardous, wording));
  }
  if (any_stream(parts.figures, false)) {
    lines.push_back(mass_total_line(wording.text("streams.other_total"), "other-total",
                                    parts.figures.other, wording));
  }
  const TableWords words{"streams", wording.text("streams.caption"), wording.text("streams.none")};
  Blocks blocks{lay_out(section, lines, words, "", wording)};
  if (!densities.empty()) {
    blocks.emplace_back(
        document::Paragraph{base::join(densities, "\n"), document::ParagraphStyle::kSmall});
  }
  return blocks;
}

Blocks level_blocks(const MonthParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const ContainerFigures& container : parts.figures.containers) {
    lines.push_back(level_line(parts, container));
  }
  const TableWords words{
      "levels", parts.wording.text("levels.caption", {{"time", time_text(up_to(parts.figures))}}),
      parts.wording.text("levels.none")};
  return {lay_out(section, lines, words, "", parts.wording)};
}

Blocks collection_blocks(const MonthParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const CollectedFigures& collected : parts.figures.collected) {
    lines.push_back(collected_line(parts.texts, collected));
    lines.back().cells["container"].link = entries_link(parts, collected.container);
  }
  const TableWords words{"collections", parts.wording.text("collections.caption"),
                         parts.wording.text("collections.none")};
  return {lay_out(section, lines, words, "", parts.wording),
          open_documents_block(parts.wording, parts.wording.text("collections.open_title"),
                               parts.figures.open_documents)};
}

ReportWording::Values late_values(const MonthParts& parts, const EntryFigures& entry) {
  return {{"entry", count_text(entry.seq)},
          {"kind", parts.texts.kind(entry.kind)},
          {"occurred", time_text(entry.occurred_at)},
          {"recorded", time_text(entry.recorded_at)},
          {"person", parts.texts.person(entry.person)}};
}

std::string corrected_line(const MonthParts& parts, const CorrectionFigures& correction) {
  return parts.wording.text("correction.of_entry",
                            {{"entry", count_text(correction.target.seq)},
                             {"kind", parts.texts.kind(correction.target.kind)},
                             {"time", time_text(correction.target.occurred_at)},
                             {"what", parts.texts.correction(correction)}});
}

}  // namespace benchwarden::reports
