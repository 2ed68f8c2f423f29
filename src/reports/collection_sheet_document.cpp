#include "reports/collection_sheet_document.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "reports/collection_sheet_tables.h"
#include "reports/number_text.h"
#include "reports/waste_words.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kSheetReport = "collection-sheet";

const std::string& standing_text(const SheetParts& parts) {
  if (parts.figures.state == SheetState::kDraft) return parts.wording.text("handover.draft");
  return parts.figures.state == SheetState::kTaken ? parts.wording.text("handover.taken")
                                                   : parts.wording.text("handover.nothing_taken");
}

document::KeyFigure containers_figure(const SheetParts& parts) {
  document::KeyFigure figure;
  figure.label = parts.wording.text(is_taken(parts) ? Key("handover.containers")
                                                    : Key("handover.containers_planned"));
  figure.name = "containers";
  figure.value = count_text(parts.figures.loads.size());
  figure.raw = std::to_string(parts.figures.loads.size());
  return figure;
}

document::KeyFigure volume_figure(const SheetParts& parts, std::int64_t volume) {
  const int places = std::min(places_needed(volume, 3), kPrintedPlacesMax);
  document::KeyFigure figure;
  figure.label =
      parts.wording.text(is_taken(parts) ? Key("handover.volume") : Key("handover.volume_planned"));
  figure.name = "volume_l";
  figure.unit = quantities::find_unit("l")->symbol;
  figure.value = number_text(to_printed(volume), places);
  figure.raw = plain_number(volume, places_needed(volume, 3));
  return figure;
}

Blocks sheet_figure_blocks(const SheetParts& parts) {
  const CollectionSheetFigures& figures = parts.figures;
  document::KeyFigures key;
  key.name = "figures";
  key.figures.push_back(containers_figure(parts));
  if (figures.total_volume) key.figures.push_back(volume_figure(parts, *figures.total_volume));
  const std::string& mass =
      parts.wording.text(is_taken(parts) ? Key("handover.mass") : Key("handover.mass_planned"));
  key.figures.push_back(mass_figure(mass, "mass_kg", figures.total_mass, parts.wording));
  for (document::KeyFigure& figure : key.figures) figure.link = "loads";
  return {document::Paragraph{standing_text(parts)}, std::move(key),
          document::Paragraph{parts.wording.text("handover.no_document"),
                              document::ParagraphStyle::kCaution}};
}

Blocks sheet_signature_blocks(const SheetParts& parts) {
  const ReportWording& wording = parts.wording;
  if (parts.figures.state == SheetState::kNothingTaken) {
    return {document::Paragraph{wording.text("handover.not_signed")}};
  }
  const document::SignatureLine line{{wording.text("signature.name"),
                                      wording.text("signature.date"),
                                      wording.text("signature.sign")}};
  Blocks blocks{document::Paragraph{wording.text("handover.hands_over")}, line,
                document::Paragraph{wording.text("handover.takes")}, line};
  if (!is_taken(parts)) {
    blocks.insert(blocks.begin(), document::Paragraph{wording.text("handover.sign_on_the_day")});
  }
  return blocks;
}

Blocks sheet_method_blocks(const SheetParts& parts) {
  const ReportWording& wording = parts.wording;
  const Frame& frame = parts.figures.frame;
  return method_blocks_of(frame, wording,
                          {wording.text("methods.order_only", {{"zone", frame.zone}}),
                           wording.text("methods.sheet"), wording.text("methods.rounding")});
}

Blocks sheet_blocks(const SheetParts& parts, const SectionDefinition& section,
                    const ReportData& data) {
  if (section.id == "figures") return sheet_figure_blocks(parts);
  if (section.id == "parties") return sheet_party_blocks(parts, section);
  if (section.id == "loads") return sheet_load_blocks(parts, section);
  if (section.id == "stages") return sheet_stage_blocks(parts, section);
  if (section.id == "signature") return sheet_signature_blocks(parts);
  if (section.id == "cautions") return caution_blocks(data.definitions.get(kSheetReport), data);
  assert(section.id == "methods");
  return sheet_method_blocks(parts);
}

}  // namespace

document::Document collection_sheet_document(const CollectionSheetFigures& figures,
                                             const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kSheetReport);
  const SheetParts parts{figures, data.wording, Texts(figures.frame, data.wording)};
  const std::string period =
      data.wording.text("page.period_collection", {{"collection", figures.collection}});
  document::Document document =
      framed_document(figures.frame, definition.title, period, data.wording);
  document.report_name = kSheetReport;
  document.subject_lines = site_lines(figures.frame, data.wording);
  document.subject_lines.push_back(
      data.wording.text("subject.collection", {{"collection", figures.collection},
                                               {"as_of", time_text(figures.frame.as_of)},
                                               {"zone", figures.frame.zone}}));
  for (std::string& line : book_lines(figures.frame, data.wording)) {
    document.subject_lines.push_back(std::move(line));
  }
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(
        titled_section(data.wording, kSheetReport, section.id, sheet_blocks(parts, section, data)));
  }
  return document;
}

}  // namespace benchwarden::reports
