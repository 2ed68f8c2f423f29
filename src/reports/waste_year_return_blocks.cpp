#include <utility>

#include "base/text.h"
#include "reports/number_text.h"
#include "reports/source_words.h"
#include "reports/table_lines.h"
#include "reports/waste_words.h"
#include "reports/waste_year_tables.h"

namespace benchwarden::reports {
namespace {

/// What is asked for in words, and where that stands.
Blocks asked_blocks(const YearParts& parts, const ReturnFigures& figures) {
  const ReportWording& wording = parts.wording;
  return {document::Paragraph{figures.asked.sentence},
          document::Paragraph{wording.text("year.return_source",
                                           {{"pack", figures.pack_title},
                                            {"source", source_words(wording, figures.asked.citation,
                                                                    figures.asked.confidence)}}),
                              document::ParagraphStyle::kSmall}};
}

std::string stream_names(const YearParts& parts, const std::vector<std::string>& ids) {
  std::vector<std::string> names;
  for (const StreamYear& stream : parts.figures.streams) {
    for (const std::string& id : ids) {
      if (stream.sums.facts.id == id) names.push_back(stream.sums.facts.name);
    }
  }
  return base::join(names, parts.wording.text("word.list_mark"));
}

/// With the asterisk the List of Waste gives to hazardous waste.
std::string asked_code(const ReturnDefinition& asked, const std::string& code) {
  return code + (asked.hazardous_only && asked.code == ReturnCode::kListOfWaste ? "*" : "");
}

TableLine return_line(const YearParts& parts, const ReturnDefinition& asked,
                      const ReturnLine& one) {
  const ReportWording& wording = parts.wording;
  const std::string year = std::to_string(parts.figures.year);
  const std::string period =
      one.quarter == 0 ? year
                       : wording.text("year.quarter",
                                      {{"year", year}, {"quarter", std::to_string(one.quarter)}});
  TableLine line;
  line.name = (one.quarter == 0 ? "" : "q" + std::to_string(one.quarter) + " ") + one.code;
  line.cells["period"] = text_cell(period);
  line.cells["code"] = one.code.empty() ? text_cell(wording.text("word.not_recorded"), "")
                                        : text_cell(asked_code(asked, one.code), one.code);
  line.cells["streams"] = text_cell(stream_names(parts, one.streams), base::join(one.streams, " "));
  if (one.streams.size() == 1) line.cells["streams"].link = stream_anchor(one.streams.front());
  line.cells["amount"] = one.thousandths ? number_cell(*one.thousandths * 1'000) : no_cell(wording);
  line.cells["weighed"] =
      one.weighed_thousandths ? number_cell(*one.weighed_thousandths * 1'000) : no_cell(wording);
  return line;
}

/// What arose is not on scales as a whole: a return of it has no such column.
SectionDefinition columns_for(const ReturnDefinition& asked, SectionDefinition section) {
  if (asked.figure != ReturnFigure::kCollected) std::erase(section.columns, "weighed");
  return section;
}

TableLine generator_line(const YearParts& parts, const findings::GeneratorMonth& month) {
  TableLine line;
  line.name = base::format_month(month.month);
  line.cells["month"] = text_cell(parts.wording.month(month.month), line.name);
  line.cells["not_acute_kg"] = number_cell(month.not_acute);
  line.cells["acute_kg"] = number_cell(month.acute);
  line.cells["spill_residue_kg"] = number_cell(month.spill_residue);
  line.cells["category"] = month.category.empty()
                               ? text_cell(parts.wording.text("year.category_not_told"), "")
                               : text_cell(parts.texts.value("register-change/generator_category",
                                                             entries::Code{month.category}),
                                           month.category);
  return line;
}

void append_blocks(Blocks& blocks, Blocks more) {
  for (document::Block& block : more) blocks.push_back(std::move(block));
}

}  // namespace

Blocks year_return_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks{
      document::Paragraph{wording.text("year.no_return"), document::ParagraphStyle::kCaution}};
  for (const ReturnFigures& figures : parts.figures.returns) {
    if (figures.asked.figure == ReturnFigure::kCategory) continue;
    blocks.emplace_back(document::Heading{2, figures.asked.title});
    append_blocks(blocks, asked_blocks(parts, figures));
    if (figures.asked.figure == ReturnFigure::kNone) continue;
    std::vector<TableLine> lines;
    for (const ReturnLine& line : figures.lines)
      lines.push_back(return_line(parts, figures.asked, line));
    const TableWords words{"return-" + figures.asked.id, wording.text("year.return"),
                           wording.text("year.return_empty")};
    blocks.emplace_back(
        lay_out(columns_for(figures.asked, section), lines, words, figures.asked.unit, wording));
  }
  if (blocks.size() == 1) {
    blocks.emplace_back(document::Paragraph{wording.text("year.returns_unknown")});
  }
  return blocks;
}

Blocks year_generator_blocks(const YearParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  Blocks blocks;
  for (const ReturnFigures& figures : parts.figures.returns) {
    if (figures.asked.figure != ReturnFigure::kCategory) continue;
    append_blocks(blocks, asked_blocks(parts, figures));
    std::vector<TableLine> lines;
    for (const auto& month : parts.figures.generator_months) {
      lines.push_back(generator_line(parts, month));
    }
    const TableWords words{"return-" + figures.asked.id, wording.text("year.generator"),
                           wording.text("year.return_empty")};
    blocks.emplace_back(lay_out(section, lines, words, "kg", wording));
  }
  return blocks;
}

}  // namespace benchwarden::reports
