#include "reports/waste_year_document.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/waste_words.h"
#include "reports/waste_year_tables.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kYearReport = "waste-year";

/// One sentence about what is closed, collected and to be looked at.
document::Paragraph year_standing(const YearParts& parts) {
  const WasteYearFigures& figures = parts.figures;
  const auto count = [](const auto& items, auto is_meant) {
    return count_text(
        static_cast<std::uint64_t>(std::count_if(items.begin(), items.end(), is_meant)));
  };
  const YearQuality& quality = figures.quality;
  return {parts.wording.text(
      "year.glance",
      {{"over", count(figures.months, [](const auto& m) { return m.state == MonthState::kOver; })},
       {"closed", count(figures.months, [](const auto& m) { return m.closing.has_value(); })},
       {"collections", count_text(count_collections(figures.consignments))},
       {"open", count_text(count_documents_not_back(figures.consignments))},
       {"late", count_text(quality.late.size())},
       {"corrected", count_text(quality.corrections.size())},
       {"unconfirmed", count_text(quality.unconfirmed.size())}})};
}

Blocks year_figure_blocks(const YearParts& parts) {
  const WasteYearFigures& figures = parts.figures;
  const ReportWording& wording = parts.wording;
  if (figures.streams.empty()) return {document::Paragraph{wording.text("year.no_streams")}};
  document::KeyFigures key = waste_key_figures(figures.hazardous, figures.other, wording);
  for (document::KeyFigure& figure : key.figures) figure.link = "streams";
  key.figures[2].link = "consignments";
  return {std::move(key), year_standing(parts)};
}

const EntryFigures& entry_in(const EntryFigures& entry) { return entry; }
const EntryFigures& entry_in(const CorrectionFigures& correction) { return correction.target; }

/// "4, 7–9": numbers of entries, ascending, each once.
std::string entry_numbers(std::vector<std::uint64_t> numbers, const ReportWording& wording) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  std::vector<std::string> ranges;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t end = i + 1;
    while (end < numbers.size() && numbers[end] == numbers[end - 1] + 1) ++end;
    const std::string first = count_text(numbers[i]);
    ranges.push_back(end == i + 1
                         ? first
                         : wording.text("word.from_to",
                                        {{"from", first}, {"to", count_text(numbers[end - 1])}}));
    i = end;
  }
  return base::join(ranges, wording.text("word.list_mark"));
}

template <class Item>
std::string counted_line(const YearParts& parts, const std::string& what,
                         const std::vector<Item>& items) {
  if (items.empty()) return parts.wording.text("quality.none", {{"what", what}});
  std::vector<std::uint64_t> numbers;
  for (const Item& item : items) numbers.push_back(entry_in(item).seq);
  return parts.wording.text("year.counted", {{"what", what},
                                             {"count", count_text(items.size())},
                                             {"entries", entry_numbers(numbers, parts.wording)}});
}

Blocks year_quality_blocks(const YearParts& parts) {
  const YearQuality& quality = parts.figures.quality;
  const ReportWording& wording = parts.wording;
  document::NoteBox box;
  box.title = wording.text("year.quality");
  box.lines = {counted_line(parts, wording.text("quality.late"), quality.late),
               counted_line(parts, wording.text("quality.corrected"), quality.corrections),
               counted_line(parts, wording.text("quality.unconfirmed"), quality.unconfirmed),
               counted_line(parts, wording.text("quality.disowned"), quality.disowned)};
  return {std::move(box)};
}

Blocks year_method_blocks(const YearParts& parts) {
  const ReportWording& wording = parts.wording;
  const Frame& frame = parts.figures.frame;
  return method_blocks_of(frame, wording,
                          {wording.text("methods.month", {{"zone", frame.zone}}),
                           wording.text("methods.arisen"), wording.text("methods.year"),
                           wording.text("methods.rounding"), wording.text("methods.returns")});
}

std::vector<std::string> year_subject_lines(const YearParts& parts) {
  const WasteYearFigures& figures = parts.figures;
  const ReportWording& wording = parts.wording;
  std::vector<std::string> lines = site_lines(figures.frame, wording);
  lines.push_back(wording.text(
      "subject.year", {{"year", std::to_string(figures.year)}, {"zone", figures.frame.zone}}));
  const std::string as_of = time_text(figures.frame.as_of);
  if (figures.frame.book_size == 0) {
    lines.push_back(wording.text("subject.empty_book"));
  } else if (figures.state == MonthState::kRunning) {
    lines.push_back(wording.text("subject.year_not_over", {{"as_of", as_of}}));
  } else if (figures.state == MonthState::kNotBegun) {
    lines.push_back(wording.text("subject.year_not_begun", {{"as_of", as_of}}));
  }
  if (figures.begins && figures.frame.book_size > 0) {
    lines.push_back(
        wording.text("subject.book_begins", {{"month", wording.month(*figures.begins)}}));
  }
  for (std::string& line : book_lines(figures.frame, wording)) lines.push_back(std::move(line));
  return lines;
}

Blocks year_blocks(const YearParts& parts, const SectionDefinition& section,
                   const ReportData& data) {
  if (section.id == "figures") return year_figure_blocks(parts);
  if (section.id == "streams") return year_stream_blocks(parts, section);
  if (section.id == "balance") return year_balance_blocks(parts, section);
  if (section.id == "months") return year_month_blocks(parts, section);
  if (section.id == "consignments") return year_consignment_blocks(parts, section);
  if (section.id == "carriers") return year_carrier_blocks(parts, section);
  if (section.id == "returns") return year_return_blocks(parts, section);
  if (section.id == "generator") return year_generator_blocks(parts, section);
  if (section.id == "quality") return year_quality_blocks(parts);
  if (section.id == "closing") return year_closing_blocks(parts, section);
  if (section.id == "methods") return year_method_blocks(parts);
  if (section.id == "cautions") return caution_blocks(data.definitions.get(kYearReport), data);
  assert(section.id == "signature");
  return signature_blocks(parts.wording);
}

}  // namespace

document::Document waste_year_document(const WasteYearFigures& figures, const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kYearReport);
  const YearParts parts{figures, data.wording, Texts(figures.frame, data.wording)};
  document::Document document =
      framed_document(figures.frame, definition.title, std::to_string(figures.year), data.wording);
  document.report_name = kYearReport;
  document.subject_lines = year_subject_lines(parts);
  for (const SectionDefinition& section : definition.sections) {
    Blocks blocks = year_blocks(parts, section, data);
    if (blocks.empty()) continue;
    document::Section titled =
        titled_section(data.wording, kYearReport, section.id, std::move(blocks));
    // A long part after what is signed.
    if (section.id == "months") titled.page_break = document::PageBreak::kBefore;
    document.sections.push_back(std::move(titled));
  }
  return document;
}

}  // namespace benchwarden::reports
