#include "reports/audit_pack_document.h"

#include <cassert>

#include "base/text.h"
#include "document/compose.h"
#include "reports/closing_parts.h"
#include "reports/history_document.h"
#include "reports/number_text.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kAuditPack = "audit-pack";

struct PackParts {
  const AuditPackFigures& figures;
  const ReportData& data;
  Texts texts;
  std::size_t bound = 0;  ///< how many reports are bound into it
};

document::KeyFigure pack_count(const PackParts& parts, Key label, const std::string& name,
                               std::size_t count) {
  document::KeyFigure figure;
  figure.label = parts.data.wording.text(label);
  figure.name = name;
  figure.value = count_text(count);
  figure.raw = std::to_string(count);
  return figure;
}

Blocks pack_figure_blocks(const PackParts& parts) {
  const AuditPackFigures& figures = parts.figures;
  document::KeyFigures key;
  key.name = "figures";
  key.figures = {pack_count(parts, "pack.bound", "bound", parts.bound),
                 pack_count(parts, "pack.changes", "changes", figures.changes.size()),
                 pack_count(parts, "pack.corrections", "corrections", figures.corrections.size()),
                 pack_count(parts, "pack.issued", "issued", figures.issued.size()),
                 pack_count(parts, "pack.others", "others", figures.others.size())};
  for (std::size_t i = 1; i < key.figures.size(); ++i) key.figures[i].link = key.figures[i].name;
  return {std::move(key), document::Paragraph{parts.data.wording.text("pack.one_book")},
          document::Paragraph{tree_head_line(figures.frame, parts.data.wording),
                              document::ParagraphStyle::kSmall}};
}

Blocks pack_change_blocks(const PackParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const HistoryLine& change : parts.figures.changes) {
    lines.push_back(register_change_line(parts.texts, change, section));
  }
  const ReportWording& wording = parts.data.wording;
  return {
      lay_out(section, lines,
              {section.id, wording.text("pack.changes_caption"), wording.text("pack.no_changes")},
              "", wording)};
}

/// With all its fields: nothing else of the pack says what stands in it.
TableLine other_line(const Texts& texts, const HistoryLine& other) {
  const std::string& kind = other.entry.kind;
  TableLine line;
  line.name = std::to_string(other.entry.seq);
  line.cells["entry"] = count_cell(other.entry.seq);
  line.cells["occurred_at"] =
      text_cell(time_text(other.entry.occurred_at), base::format_rfc3339(other.entry.occurred_at));
  line.cells["kind"] = text_cell(texts.kind(kind), kind);
  line.cells["person"] = text_cell(texts.person(other.entry.person), other.entry.person.id);
  std::vector<std::string> said;
  for (const entries::Field& field : other.fields) {
    said.push_back(texts.labelled(path_of(kind, field.name), field.value));
  }
  line.details.push_back(base::join(said, texts.wording().text("word.row_mark")));
  for (const CorrectionFigures& correction : other.corrections) {
    line.details.push_back(texts.correction(correction));
  }
  return line;
}

Blocks pack_other_blocks(const PackParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const HistoryLine& other : parts.figures.others) {
    lines.push_back(other_line(parts.texts, other));
  }
  const ReportWording& wording = parts.data.wording;
  return {lay_out(section, lines,
                  {section.id, wording.text("pack.others_caption"), wording.text("pack.no_others")},
                  "", wording)};
}

TableLine correction_line(const PackParts& parts, const CorrectionFigures& one) {
  TableLine line;
  line.name = std::to_string(one.by.seq);
  line.cells["entry"] = count_cell(one.by.seq);
  line.cells["occurred_at"] =
      text_cell(time_text(one.by.occurred_at), base::format_rfc3339(one.by.occurred_at));
  line.cells["corrects"] = count_cell(one.target.seq);
  line.cells["kind"] = text_cell(parts.texts.kind(one.target.kind), one.target.kind);
  line.cells["person"] = text_cell(parts.texts.person(one.by.person), one.by.person.id);
  line.details.push_back(parts.texts.correction(one));
  return line;
}

Blocks pack_correction_blocks(const PackParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const CorrectionFigures& one : parts.figures.corrections) {
    lines.push_back(correction_line(parts, one));
  }
  const ReportWording& wording = parts.data.wording;
  return {lay_out(
      section, lines,
      {section.id, wording.text("pack.corrections_caption"), wording.text("pack.no_corrections")},
      "", wording)};
}

std::string about_text(const PackParts& parts, const IssuedFigures& issued) {
  std::vector<std::string> about;
  for (const entries::Field& field : issued.about) {
    about.push_back(parts.texts.labelled(path_of("report-issued", field.name), field.value));
  }
  return base::join(about, parts.data.wording.text("word.list_mark"));
}

TableLine issued_line(const PackParts& parts, const IssuedFigures& issued) {
  const ReportDefinition* report = parts.data.definitions.find(issued.report);
  TableLine line;
  line.name = std::to_string(issued.entry.seq);
  line.cells["entry"] = count_cell(issued.entry.seq);
  line.cells["occurred_at"] = text_cell(time_text(issued.entry.occurred_at),
                                        base::format_rfc3339(issued.entry.occurred_at));
  line.cells["report"] =
      text_cell(report == nullptr ? issued.report : report->title, issued.report);
  line.cells["about"] = text_cell(about_text(parts, issued));
  line.cells["book_size"] = count_cell(issued.book_size);
  line.cells["person"] = text_cell(parts.texts.person(issued.entry.person), issued.entry.person.id);
  line.details.push_back(parts.data.wording.text("pack.digest", {{"digest", issued.digest}}));
  return line;
}

Blocks pack_issued_blocks(const PackParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const IssuedFigures& issued : parts.figures.issued) {
    lines.push_back(issued_line(parts, issued));
  }
  const ReportWording& wording = parts.data.wording;
  return {lay_out(section, lines,
                  {section.id, wording.text("pack.issued_caption"), wording.text("pack.no_issued")},
                  "", wording)};
}

Blocks pack_blocks_of(const PackParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.data.wording;
  if (section.id == "figures") return pack_figure_blocks(parts);
  if (section.id == "changes") return pack_change_blocks(parts, section);
  if (section.id == "corrections") return pack_correction_blocks(parts, section);
  if (section.id == "others") return pack_other_blocks(parts, section);
  if (section.id == "issued") return pack_issued_blocks(parts, section);
  if (section.id == "methods") {
    return method_blocks_of(parts.figures.frame, wording,
                            {wording.text("methods.pack", {{"zone", parts.figures.frame.zone}})});
  }
  if (section.id == "cautions") {
    return caution_blocks(parts.data.definitions.get(kAuditPack), parts.data);
  }
  assert(section.id == "signature");
  return signature_blocks(wording);
}

/// Contents and index have their titles themselves. One line for each part, so that the contents of
/// a year stand on a page; the outline of the file has the rest.
document::Section pack_section(const PackParts& parts, const SectionDefinition& section) {
  const ReportWording& wording = parts.data.wording;
  const std::string& title = wording.section(kAuditPack, section.id);
  if (section.id == "contents") return {{document::Contents{title, 1}}};
  if (section.id == "index") {
    return {{document::EntryIndex{title, wording.text("pack.empty_index")}}};
  }
  return titled_section(wording, kAuditPack, section.id, pack_blocks_of(parts, section));
}

std::vector<std::string> pack_subject_lines(const PackParts& parts) {
  const AuditPackFigures& figures = parts.figures;
  const ReportWording& wording = parts.data.wording;
  std::vector<std::string> lines = site_lines(figures.frame, wording);
  lines.push_back(wording.text("subject.days", {{"first", base::format_date(figures.first)},
                                                {"last", base::format_date(figures.last)},
                                                {"zone", figures.frame.zone}}));
  const base::Instant end = figures.zone.start_of(base::add_days(figures.last, 1));
  if (figures.frame.book_size == 0) {
    lines.push_back(wording.text("subject.empty_book"));
  } else if (figures.frame.as_of.instant < end) {
    lines.push_back(
        wording.text("subject.days_not_over", {{"as_of", time_text(figures.frame.as_of)}}));
  }
  for (std::string& line : book_lines(figures.frame, wording)) lines.push_back(std::move(line));
  return lines;
}

std::vector<document::Part> as_parts(std::vector<PackPart> reports, const ReportWording& wording) {
  std::vector<document::Part> parts;
  for (PackPart& report : reports) {
    std::string title = wording.text(
        "word.label_and_value",
        {{"label", report.document.title}, {"value", report.document.furniture.period}});
    parts.push_back({"part-" + std::to_string(parts.size() + 1), std::move(report.name),
                     std::move(title), std::move(report.document)});
  }
  return parts;
}

}  // namespace

document::Document audit_pack_document(const AuditPackFigures& figures, std::vector<PackPart> parts,
                                       const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kAuditPack);
  const PackParts own{figures, data, Texts(figures.frame, data.wording), parts.size()};
  document::Document cover = framed_document(
      figures.frame, definition.title,
      data.wording.text("page.period_days", {{"first", base::format_date(figures.first)},
                                             {"last", base::format_date(figures.last)}}),
      data.wording);
  cover.report_name = kAuditPack;
  cover.subject_lines = pack_subject_lines(own);
  std::size_t place = 0;
  for (const SectionDefinition& section : definition.sections) {
    // What comes right after the parts begins a page, as they do.
    const bool follows_parts = place != 0 && place == cover.sections.size();
    cover.sections.push_back(pack_section(own, section));
    if (follows_parts) cover.sections.back().page_break = document::PageBreak::kBefore;
    if (section.id == "contents") place = cover.sections.size();
  }
  return document::compose(std::move(cover), place, as_parts(std::move(parts), data.wording));
}

}  // namespace benchwarden::reports
