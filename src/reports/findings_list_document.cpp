#include "reports/findings_list_document.h"

#include <array>
#include <cassert>

#include "base/text.h"
#include "reports/closing_parts.h"
#include "reports/number_text.h"
#include "reports/source_words.h"
#include "reports/table_lines.h"
#include "reports/texts.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kFindingsList = "findings-list";

struct ListParts {
  const FindingsListFigures& figures;
  const ReportWording& wording;
  Texts texts;
};

/// A severity of the findings, the section it stands in and its words.
struct Weight {
  std::string_view section;
  findings::Severity severity;
  Key label;
  Key none;
};
constexpr std::array kWeights{
    Weight{"over", findings::Severity::kOver, "findings.over", "findings.none_over"},
    Weight{"due", findings::Severity::kDue, "findings.due", "findings.none_due"},
    Weight{"note", findings::Severity::kNote, "findings.note", "findings.none_note"}};

document::KeyFigure count_figure(const std::string& label, std::string_view name,
                                 std::size_t count) {
  document::KeyFigure figure;
  figure.label = label;
  figure.name = name;
  figure.value = count_text(count);
  figure.raw = std::to_string(count);
  return figure;
}

Blocks figure_blocks(const ListParts& parts) {
  document::KeyFigures key;
  key.name = "figures";
  for (const Weight& weight : kWeights) {
    document::KeyFigure figure = count_figure(parts.wording.text(weight.label), weight.section,
                                              count_of(parts.figures, weight.severity));
    figure.link = weight.section;
    key.figures.push_back(std::move(figure));
  }
  key.figures.push_back(count_figure(parts.wording.text("findings.planned"), "planned",
                                     parts.figures.planned.size()));
  key.figures.back().link = "planned";
  Blocks blocks{std::move(key)};
  if (parts.figures.frame.book_size > 0) {
    blocks.emplace_back(document::Paragraph{
        parts.wording.text("findings.judged", {{"as_of", time_text(parts.figures.frame.as_of)}})});
  }
  return blocks;
}

std::string numbers_text(const ListParts& parts, const std::vector<std::uint64_t>& entries) {
  std::vector<std::string> numbers;
  for (const std::uint64_t entry : entries) numbers.push_back(count_text(entry));
  return base::join(numbers, parts.wording.text("word.list_mark"));
}

std::string rule_text(const ListParts& parts, const findings::Finding& finding) {
  const findings::Authority& rule = finding.authority;
  if (rule.clears.empty()) return rule.sentence;
  return parts.wording.text("findings.rule", {{"says", rule.sentence}, {"clears", rule.clears}});
}

std::string source_text(const ListParts& parts, const findings::Finding& finding) {
  const findings::Authority& rule = finding.authority;
  const std::string source = source_words(parts.wording, rule.citation, rule.confidence);
  return parts.wording.text("findings.source",
                            {{"source", source}, {"pack", rule.pack}, {"edition", rule.edition}});
}

std::string acknowledgement_text(const ListParts& parts, const AcknowledgementFigures& one) {
  const ReportWording::Values values{{"person", parts.texts.person(one.entry.person)},
                                     {"time", time_text(one.entry.occurred_at)},
                                     {"entry", count_text(one.entry.seq)},
                                     {"reason", one.reason}};
  if (!one.until) return parts.wording.text("findings.acknowledged", values);
  ReportWording::Values until = values;
  until.emplace_back("until", base::format_date(*one.until));
  return parts.wording.text("findings.acknowledged_until", until);
}

std::vector<std::string> finding_details(const ListParts& parts, const FindingFigures& one) {
  std::vector<std::string> details{rule_text(parts, one.finding), source_text(parts, one.finding)};
  if (!one.finding.entries.empty()) {
    details.push_back(parts.wording.text("findings.entries",
                                         {{"entries", numbers_text(parts, one.finding.entries)}}));
  }
  if (one.acknowledged) details.push_back(acknowledgement_text(parts, *one.acknowledged));
  if (one.closed_by != 0) {
    details.push_back(
        parts.wording.text("findings.closed", {{"entry", count_text(one.closed_by)}}));
  }
  return details;
}

CellValue told_or_none(const std::string& text, const ReportWording& wording) {
  return text.empty() ? no_cell(wording) : text_cell(text);
}

TableLine finding_line(const ListParts& parts, const FindingFigures& one) {
  const findings::Finding& finding = one.finding;
  const base::Timestamp since = parts.figures.zone.local(finding.since);
  TableLine line;
  line.name = findings::key_of(finding);
  line.cells["sentence"] = text_cell(one.sentence);
  line.cells["measured"] = told_or_none(one.measured, parts.wording);
  line.cells["limit"] = told_or_none(one.limit, parts.wording);
  line.cells["since"] = text_cell(date_text(since), base::format_rfc3339(since));
  line.cells["due_day"] =
      finding.due ? text_cell(base::format_date(*finding.due)) : no_cell(parts.wording);
  line.details = finding_details(parts, one);
  return line;
}

Blocks finding_blocks(const ListParts& parts, const SectionDefinition& section,
                      const Weight& weight) {
  std::vector<TableLine> lines;
  for (const FindingFigures& one : parts.figures.findings) {
    if (one.finding.severity == weight.severity) lines.push_back(finding_line(parts, one));
  }
  const TableWords words{section.id, parts.wording.text("findings.caption"),
                         parts.wording.text(weight.none)};
  return {lay_out(section, lines, words, "", parts.wording)};
}

TableLine due_line(const ListParts& parts, const DueFigures& item) {
  TableLine line;
  std::vector<std::string> name{item.rule, item.subject};
  if (!item.part.empty()) name.push_back(item.part);
  line.name = base::join(name, "/");
  line.cells["due_day"] = text_cell(base::format_date(item.day));
  line.cells["sentence"] = text_cell(item.sentence);
  line.cells["source"] = text_cell(source_words(parts.wording, item.citation, item.confidence));
  line.cells["done"] = text_cell(parts.wording.text("word.box"), "");
  if (item.entry != 0) line.cells["entry"] = count_cell(item.entry);
  return line;
}

Blocks due_blocks(const ListParts& parts, const SectionDefinition& section,
                  const std::vector<DueFigures>& items, const TableWords& words) {
  std::vector<TableLine> lines;
  for (const DueFigures& item : items) lines.push_back(due_line(parts, item));
  return {lay_out(section, lines, words, "", parts.wording)};
}

Blocks blocks_of(const ListParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.wording;
  for (const Weight& weight : kWeights) {
    if (section.id == weight.section) return finding_blocks(parts, section, weight);
  }
  if (section.id == "figures") return figure_blocks(parts);
  if (section.id == "calendar") {
    return due_blocks(
        parts, section, parts.figures.due,
        {"calendar",
         wording.text("findings.calendar", {{"days", std::to_string(parts.figures.days_ahead)}}),
         wording.text("findings.none_calendar")});
  }
  if (section.id == "planned") {
    return due_blocks(
        parts, section, parts.figures.planned,
        {"planned", wording.text("findings.plans"), wording.text("findings.none_planned")});
  }
  if (section.id == "methods") {
    return method_blocks_of(parts.figures.frame, wording,
                            {wording.text("methods.findings"), wording.text("methods.box")});
  }
  assert(section.id == "signature");
  return signature_blocks(wording);
}

std::vector<std::string> list_subject_lines(const ListParts& parts) {
  const Frame& frame = parts.figures.frame;
  std::vector<std::string> lines = site_lines(frame, parts.wording);
  if (frame.book_size == 0) {
    lines.push_back(parts.wording.text("subject.empty_book"));
  } else {
    lines.push_back(parts.wording.text("subject.judged_at",
                                       {{"as_of", time_text(frame.as_of)}, {"zone", frame.zone}}));
  }
  for (std::string& line : book_lines(frame, parts.wording)) lines.push_back(std::move(line));
  return lines;
}

}  // namespace

document::Document findings_list_document(const FindingsListFigures& figures,
                                          const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kFindingsList);
  const ListParts parts{figures, data.wording, Texts(figures.frame, data.wording)};
  const std::string period =
      figures.frame.book_size == 0
          ? data.wording.text("page.no_entries")
          : data.wording.text("page.period_as_of", {{"day", date_text(figures.frame.as_of)}});
  document::Document document =
      framed_document(figures.frame, definition.title, period, data.wording);
  document.report_name = kFindingsList;
  document.subject_lines = list_subject_lines(parts);
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, definition.id, section.id, blocks_of(parts, section)));
  }
  return document;
}

}  // namespace benchwarden::reports
