#include "reports/waste_year_tables.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/table_lines.h"
#include "reports/waste_words.h"

namespace benchwarden::reports {
namespace {

using tallies::CountedBy;

bool counted_by_volume(const StreamYear& stream) {
  return stream.sums.facts.counted_by == CountedBy::kVolume;
}

std::string_view counted_unit(const StreamYear& stream) {
  return counted_by_volume(stream) ? "l" : "kg";
}

TableLine year_stream_line(const YearParts& parts, const StreamYear& stream) {
  const ReportWording& wording = parts.wording;
  const tallies::StreamFacts& facts = stream.sums.facts;
  TableLine line;
  line.name = facts.id;
  line.cells["stream"] = linked(text_cell(facts.name, facts.id), stream_anchor(facts.id));
  line.cells["low_code"] = text_cell(code_text(facts), facts.low_code);
  line.cells["national_code"] =
      stream.national_code.empty() ? no_cell(wording) : text_cell(stream.national_code);
  line.cells["hazardous"] =
      text_cell(wording.yes_no(facts.hazardous), facts.hazardous ? "yes" : "no");
  line.cells["arisen_kg"] = number_or_none(stream.sums.arisen_mass, wording);
  line.cells["arisen_l"] = litres_cell(facts, stream.sums.arisen, wording);
  line.cells["collected_kg"] = number_or_none(stream.sums.collected_mass, wording);
  line.cells["collected_l"] = litres_cell(facts, stream.sums.collected, wording);
  line.cells["standing_kg"] = number_or_none(stream.sums.standing_mass, wording);
  return line;
}

TableLine year_balance_line(const StreamYear& stream) {
  const tallies::StreamFacts& facts = stream.sums.facts;
  TableLine line;
  line.name = facts.id;
  line.cells["stream"] = linked(text_cell(facts.name, facts.id), stream_anchor(facts.id));
  line.cells["opening"] = number_cell(stream.opening);
  line.cells["arisen"] = number_cell(stream.sums.arisen);
  line.cells["taken"] = number_cell(stream.sums.collected);
  line.cells["other"] = number_cell(stream.other);
  line.cells["closing"] = number_cell(stream.sums.standing);
  return line;
}

TableLine stream_month_line(const YearParts& parts, const StreamMonth& month) {
  TableLine line;
  line.name = base::format_month(month.month);
  line.cells["month"] = text_cell(parts.wording.month(month.month), line.name);
  line.cells["opening"] = number_cell(month.opening);
  line.cells["arisen"] = number_cell(month.arisen);
  line.cells["taken"] = number_cell(month.collected);
  line.cells["other"] = number_cell(month.other);
  line.cells["closing"] = number_cell(month.closing);
  line.cells["arisen_kg"] = number_or_none(month.arisen_mass, parts.wording);
  line.cells["collected_kg"] = number_or_none(month.collected_mass, parts.wording);
  return line;
}

/// What stands at a moment has no sum.
TableLine months_total_line(const YearParts& parts, const StreamYear& stream) {
  TableLine line;
  line.kind = document::RowKind::kTotal;
  line.name = "total";
  line.cells["month"] = text_cell(parts.wording.text("year.months_total"), "total");
  line.cells["arisen"] = number_cell(stream.sums.arisen);
  line.cells["taken"] = number_cell(stream.sums.collected);
  line.cells["other"] = number_cell(stream.other);
  line.cells["arisen_kg"] = number_or_none(stream.sums.arisen_mass, parts.wording);
  line.cells["collected_kg"] = number_or_none(stream.sums.collected_mass, parts.wording);
  return line;
}

/// Without the masses where the stream is counted by mass: they stand there already.
SectionDefinition columns_for(const StreamYear& stream, SectionDefinition section) {
  if (counted_by_volume(stream)) return section;
  std::erase_if(section.columns, [](const std::string& column) {
    return column == "arisen_kg" || column == "collected_kg";
  });
  return section;
}

document::BarChart arising_bars(const YearParts& parts, const StreamYear& stream) {
  document::BarChart chart;
  chart.caption = parts.wording.text("year.bars", {{"stream", stream.sums.facts.name}});
  chart.value_label = parts.wording.text(
      "year.bars_axis",
      {{"unit", std::string(quantities::find_unit(counted_unit(stream))->symbol)}});
  for (const StreamMonth& month : stream.months) {
    chart.bars.push_back(arisen_bar(month.month, month.arisen));
  }
  return chart;
}

TableLine stream_note(const YearParts& parts, const StreamYear& stream) {
  TableLine note;
  note.kind = document::RowKind::kNote;
  note.name = stream.sums.facts.id;
  std::string text = stream_text(parts.wording, stream.sums.facts);
  if (!stream.national_code.empty()) {
    text = parts.wording.text("year.with_national_code",
                              {{"stream", text}, {"code", stream.national_code}});
  }
  note.cells["taken_at"] = text_cell(std::move(text));
  return note;
}

/// In the unit the stream is counted by, so that it is the sum of the rows above it.
TableLine consignments_total(const YearParts& parts, const StreamYear& stream) {
  TableLine line;
  line.kind = document::RowKind::kTotal;
  line.name = stream.sums.facts.id + " total";
  line.cells["taken_at"] = text_cell(parts.wording.text("year.consignments_total"), line.name);
  line.cells[counted_by_volume(stream) ? "collected_l" : "collected_kg"] =
      number_cell(stream.sums.collected);
  return line;
}

std::string carrier_anchor(const std::string& carrier) { return "carrier-" + carrier; }

void add_consignments(const YearParts& parts, const StreamYear& stream,
                      std::vector<TableLine>& lines) {
  const std::size_t before = lines.size();
  for (const CollectedFigures& one : parts.figures.consignments) {
    if (one.stream.id != stream.sums.facts.id) continue;
    if (lines.size() == before) lines.push_back(stream_note(parts, stream));
    lines.push_back(collected_line(parts.texts, one));
    // The id stands beside the name among the carriers.
    if (!one.carrier_name.empty()) {
      lines.back().cells["carrier"] =
          linked(text_cell(one.carrier_name, one.carrier), carrier_anchor(one.carrier));
    }
  }
  if (lines.size() > before) lines.push_back(consignments_total(parts, stream));
}

TableLine carrier_line(const YearParts& parts, const CarrierFigures& carrier) {
  const auto or_none = [&](const std::string& text) {
    return text.empty() ? text_cell(parts.wording.text("word.not_recorded"), "") : text_cell(text);
  };
  TableLine line;
  line.name = carrier.facts.id;
  line.anchor = carrier_anchor(carrier.facts.id);
  line.cells["carrier"] =
      text_cell(parts.texts.thing(carrier.facts.id, carrier.facts.name), carrier.facts.id);
  line.cells["registration_number"] = or_none(carrier.facts.registration);
  line.cells["registration_expires"] = or_none(carrier.facts.registration_expires);
  line.cells["collections"] = count_cell(carrier.collections);
  return line;
}

const std::string& month_state_text(const ReportWording& wording, MonthState state) {
  if (state == MonthState::kOver) return wording.text("year.month_over");
  return state == MonthState::kRunning ? wording.text("year.month_running")
                                       : wording.text("year.month_not_begun");
}

TableLine month_closing_line(const YearParts& parts, const YearMonth& month) {
  const ReportWording& wording = parts.wording;
  TableLine line;
  line.name = base::format_month(month.month);
  line.cells["month"] = text_cell(wording.month(month.month), line.name);
  line.cells["month_state"] = text_cell(month_state_text(wording, month.state));
  line.cells["closed_by"] = text_cell(wording.text("year.not_closed"), "");
  line.cells["figures_signed"] = no_cell(wording);
  if (!month.closing) return line;
  line.cells["entry"] = count_cell(month.closing->entry);
  line.cells["closed_by"] =
      text_cell(wording.text("year.closed_by", {{"entry", count_text(month.closing->entry)}}),
                std::to_string(month.closing->entry));
  line.cells["figures_signed"] = month.closing->holds
                                     ? text_cell(wording.text("year.as_signed"), "yes")
                                     : text_cell(wording.text("year.not_as_signed"), "no");
  return line;
}

}  // namespace

Blocks year_stream_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  std::vector<std::string> densities;
  std::array<bool, 2> any{};
  for (const StreamYear& stream : parts.figures.streams) {
    lines.push_back(year_stream_line(parts, stream));
    any[stream.sums.facts.hazardous ? 0 : 1] = true;
    if (counted_by_volume(stream)) densities.push_back(density_text(wording, stream.sums));
  }
  if (any[0]) {
    lines.push_back(mass_total_line(wording.text("streams.hazardous_total"), "hazardous-total",
                                    parts.figures.hazardous, wording));
  }
  if (any[1]) {
    lines.push_back(mass_total_line(wording.text("streams.other_total"), "other-total",
                                    parts.figures.other, wording));
  }
  const TableWords words{"streams", wording.text("year.streams"), wording.text("year.no_streams")};
  Blocks blocks{lay_out(section, lines, words, "", wording)};
  if (!densities.empty()) {
    blocks.emplace_back(
        document::Paragraph{base::join(densities, "\n"), document::ParagraphStyle::kSmall});
  }
  return blocks;
}

Blocks year_balance_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks{document::Paragraph{wording.text("year.equation")}};
  for (const CountedBy counted_by : {CountedBy::kVolume, CountedBy::kMass}) {
    std::vector<TableLine> lines;
    for (const StreamYear& stream : parts.figures.streams) {
      if (stream.sums.facts.counted_by == counted_by) lines.push_back(year_balance_line(stream));
    }
    if (lines.empty()) continue;
    const bool volume = counted_by == CountedBy::kVolume;
    const TableWords words{
        volume ? "balance-volume" : "balance-mass",
        volume ? wording.text("year.balance_volume") : wording.text("year.balance_mass"), ""};
    blocks.emplace_back(lay_out(section, lines, words, volume ? "l" : "kg", wording));
  }
  if (blocks.size() == 1) blocks = {document::Paragraph{wording.text("year.no_streams")}};
  return blocks;
}

Blocks year_month_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks;
  for (const StreamYear& stream : parts.figures.streams) {
    const std::string& id = stream.sums.facts.id;
    blocks.emplace_back(
        document::Heading{2, stream_text(wording, stream.sums.facts), stream_anchor(id)});
    std::vector<TableLine> lines;
    for (const StreamMonth& month : stream.months) lines.push_back(stream_month_line(parts, month));
    lines.push_back(months_total_line(parts, stream));
    const TableWords words{"months-" + id, wording.text("year.months"), ""};
    blocks.emplace_back(
        lay_out(columns_for(stream, section), lines, words, counted_unit(stream), wording));
    blocks.emplace_back(arising_bars(parts, stream));
  }
  if (blocks.empty()) blocks = {document::Paragraph{wording.text("year.no_streams")}};
  return blocks;
}

Blocks year_consignment_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  for (const StreamYear& stream : parts.figures.streams) add_consignments(parts, stream, lines);
  const TableWords words{"consignments", wording.text("year.consignments"),
                         wording.text("year.no_consignments")};
  return {lay_out(section, lines, words, "", wording),
          open_documents_block(wording, wording.text("year.open_documents"),
                               parts.figures.open_documents)};
}

Blocks year_carrier_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  for (const CarrierFigures& carrier : parts.figures.carriers) {
    lines.push_back(carrier_line(parts, carrier));
  }
  const TableWords words{"carriers", wording.text("year.carriers"),
                         wording.text("year.no_consignments")};
  return {lay_out(section, lines, words, "", wording)};
}

Blocks year_closing_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  std::vector<TableLine> lines;
  for (const YearMonth& month : parts.figures.months) {
    lines.push_back(month_closing_line(parts, month));
  }
  const TableWords words{"closing", wording.text("year.closing"), ""};
  return {lay_out(section, lines, words, "", wording)};
}

}  // namespace benchwarden::reports
