#include "reports/waste_month_tables.h"

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/table_lines.h"

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;

bool by_volume(const tallies::StreamFacts& stream) {
  return stream.counted_by == CountedBy::kVolume;
}

CellValue litres(const tallies::StreamFacts& stream, std::int64_t amount,
                 const ReportWording& wording) {
  return by_volume(stream) ? number_cell(amount) : no_cell(wording);
}

/// How far the log reaches: to the end of a month that is over, else to what was recorded last.
const base::Timestamp& up_to(const WasteMonthFigures& figures) {
  return figures.month_state == MonthState::kOver ? figures.until : figures.frame.as_of;
}

TableLine stream_line(const MonthParts& parts, const StreamFigures& stream) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = stream.facts.id;
  line.cells["stream"] = text_cell(stream.facts.name, stream.facts.id);
  line.cells["low_code"] = text_cell(code_text(stream.facts), stream.facts.low_code);
  line.cells["hazardous"] =
      text_cell(wording.yes_no(stream.facts.hazardous), stream.facts.hazardous ? "yes" : "no");
  line.cells["arisen_kg"] = number_or_none(stream.arisen_mass, wording);
  line.cells["arisen_l"] = litres(stream.facts, stream.arisen, wording);
  line.cells["collected_kg"] = number_or_none(stream.collected_mass, wording);
  line.cells["collected_l"] = litres(stream.facts, stream.collected, wording);
  line.cells["standing_kg"] = number_or_none(stream.standing_mass, wording);
  line.cells["standing_l"] = litres(stream.facts, stream.standing, wording);
  return line;
}

TableLine total_line(const std::string& title, const std::string& name, const MassTotals& totals,
                     const ReportWording& wording) {
  TableLine line;
  line.kind = document::RowKind::kTotal;
  line.name = name;
  line.cells["stream"] = text_cell(title, name);
  line.cells["arisen_kg"] = number_or_none(totals.arisen, wording);
  line.cells["collected_kg"] = number_or_none(totals.collected, wording);
  line.cells["standing_kg"] = number_or_none(totals.standing, wording);
  return line;
}

bool any_stream(const WasteMonthFigures& figures, bool hazardous) {
  for (const StreamFigures& stream : figures.streams) {
    if (stream.facts.hazardous == hazardous) return true;
  }
  return false;
}

std::string density_text(const MonthParts& parts, const StreamFigures& stream) {
  if (!stream.facts.density) {
    return parts.wording.text("streams.no_mass", {{"stream", stream.facts.name}});
  }
  // g/m³ are thousandths of the kg/m³ that is printed.
  const std::int64_t millionths = stream.facts.density->count() * 1'000;
  return parts.wording.text(
      "streams.density",
      {{"stream", stream.facts.name},
       {"density", number_text(millionths, places_needed(millionths, 0))},
       {"unit", std::string(quantities::find_unit("kg_m3")->symbol)},
       {"source", stream.density_source.empty() ? parts.wording.text("streams.density_no_source")
                                                : stream.density_source}});
}

TableLine level_line(const MonthParts& parts, const ContainerFigures& container) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = container.id;
  line.cells["container"] = text_cell(container_text(parts, container), container.id);
  line.cells["stream"] = text_cell(container.stream.name, container.stream.id);
  line.cells["standing_l"] = litres(container.stream, container.amount, wording);
  line.cells["standing_kg"] = number_or_none(container.mass, wording);
  // A thousandth of the limit is a tenth of a percent.
  line.cells["limit_percent"] = container.limit_permille
                                    ? number_cell(*container.limit_permille * 100'000)
                                    : no_cell(wording);
  line.cells["oldest_content"] =
      container.oldest_content ? text_cell(date_text(*container.oldest_content)) : no_cell(wording);
  return line;
}

CellValue returned_cell(const CollectedFigures& collected, const ReportWording& wording) {
  if (collected.document_returned) return text_cell(date_text(*collected.document_returned));
  return text_cell(wording.text("collections.not_returned"), "");
}

TableLine collected_line(const MonthParts& parts, const CollectedFigures& collected) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = std::to_string(collected.seq) + " " + collected.container;
  line.cells["taken_at"] = text_cell(date_text(collected.taken_at));
  line.cells["document_number"] = collected.document_number.empty()
                                      ? text_cell(wording.text("word.not_recorded"), "")
                                      : text_cell(collected.document_number);
  line.cells["carrier"] =
      text_cell(parts.texts.thing(collected.carrier, collected.carrier_name), collected.carrier);
  line.cells["container"] = text_cell(
      parts.texts.thing(collected.container, collected.container_name), collected.container);
  line.cells["stream"] = text_cell(collected.stream.name, collected.stream.id);
  line.cells["collected_l"] = litres(collected.stream, collected.amount, wording);
  line.cells["collected_kg"] = number_or_none(collected.mass, wording);
  line.cells["weighed_kg"] = number_or_none(collected.weighed_mass, wording);
  line.cells["document_returned"] = returned_cell(collected, wording);
  line.cells["entry"] = count_cell(collected.seq);
  if (collected.stated_mass) {
    const std::int64_t mass = *collected.stated_mass;
    line.details.push_back(wording.text(
        "collections.stated_mass", {{"mass", number_text(mass, places_needed(mass, 3))},
                                    {"unit", std::string(quantities::find_unit("kg")->symbol)}}));
  }
  return line;
}

/// A box where there is something to do, one line where there is not.
document::Block open_documents(const MonthParts& parts) {
  const ReportWording& wording = parts.wording;
  document::NoteBox box;
  box.title = wording.text("collections.open_title");
  if (parts.figures.open_documents.empty()) {
    return document::Paragraph{wording.text("quality.none", {{"what", box.title}}),
                               document::ParagraphStyle::kSmall};
  }
  for (const OpenDocument& open : parts.figures.open_documents) {
    box.lines.push_back(
        wording.text("collections.open",
                     {{"collection", open.collection},
                      {"document", open.document_number.empty() ? wording.text("word.not_recorded")
                                                                : open.document_number},
                      {"date", date_text(open.taken_at)}}));
  }
  return box;
}

}  // namespace

std::string container_text(const MonthParts& parts, const ContainerFigures& container) {
  std::string text = parts.texts.thing(container.id, container.name);
  if (!container.counts_waste) text = parts.wording.text("word.working_bin", {{"thing", text}});
  if (container.sealed) text = parts.wording.text("word.sealed", {{"thing", text}});
  if (container.retired) text = parts.wording.text("word.retired", {{"thing", text}});
  return text;
}

std::string code_text(const tallies::StreamFacts& stream) {
  return stream.low_code + (stream.hazardous && !stream.low_code.empty() ? "*" : "");
}

std::string stream_text(const MonthParts& parts, const tallies::StreamFacts& stream) {
  if (stream.low_code.empty()) return stream.name;
  return parts.wording.text("streams.name_and_code",
                            {{"stream", stream.name}, {"code", code_text(stream)}});
}

Blocks stream_blocks(const MonthParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  std::vector<std::string> densities;
  for (const StreamFigures& stream : parts.figures.streams) {
    lines.push_back(stream_line(parts, stream));
    if (by_volume(stream.facts)) densities.push_back(density_text(parts, stream));
  }
  if (any_stream(parts.figures, true)) {
    lines.push_back(total_line(wording.text("streams.hazardous_total"), "hazardous-total",
                               parts.figures.hazardous, wording));
  }
  if (any_stream(parts.figures, false)) {
    lines.push_back(total_line(wording.text("streams.other_total"), "other-total",
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
    lines.push_back(collected_line(parts, collected));
  }
  const TableWords words{"collections", parts.wording.text("collections.caption"),
                         parts.wording.text("collections.none")};
  return {lay_out(section, lines, words, "", parts.wording), open_documents(parts)};
}

std::string amount_text(const MonthParts& parts, tallies::CountedBy counted_by,
                        std::int64_t millionths) {
  const auto* unit = quantities::find_unit(counted_by == tallies::CountedBy::kVolume ? "l" : "kg");
  return parts.wording.text("word.value_and_unit",
                            {{"value", number_text(millionths, places_needed(millionths, 0))},
                             {"unit", std::string(unit->symbol)}});
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
