#include "reports/briefing_sheet.h"

#include <cassert>

#include "base/text.h"
#include "reports/source_words.h"
#include "reports/table_lines.h"
#include "reports/texts.h"

namespace benchwarden::reports {
namespace {

constexpr std::string_view kBriefing = "briefing-sheet";
constexpr int kLinesToSign = 10;

struct BriefingParts {
  const BriefingSheetFigures& figures;
  const Caution& caution;
  const ReportWording& wording;
};

Blocks caution_words(const BriefingParts& parts) {
  document::CautionBox box = caution_box(parts.caution);
  const std::string sources = base::join(box.sources, parts.wording.text("word.row_mark"));
  box.name = "caution";
  box.sources = {parts.wording.text("cautions.source", {{"source", sources}})};
  return {std::move(box), document::Paragraph{parts.wording.text("briefing.defers")}};
}

Blocks validity_blocks(const BriefingParts& parts) {
  Blocks blocks;
  for (const findings::Authority& rule : parts.figures.rules) {
    blocks.emplace_back(document::Paragraph{parts.wording.text(
        "briefing.rule",
        {{"says", rule.sentence},
         {"source", source_words(parts.wording, rule.citation, rule.confidence)}})});
  }
  if (blocks.empty())
    blocks.emplace_back(document::Paragraph{parts.wording.text("briefing.no_rule")});
  return blocks;
}

TableLine briefed_line(const BriefedFigures& briefed) {
  TableLine line;
  line.name = briefed.person;
  line.cells["person"] = text_cell(briefed.name, briefed.person);
  line.cells["briefed_at"] =
      text_cell(date_text(briefed.briefed_at), base::format_rfc3339(briefed.briefed_at));
  line.cells["valid_until"] = text_cell(base::format_date(briefed.valid_until));
  line.cells["entry"] = count_cell(briefed.entry);
  return line;
}

Blocks briefed_blocks(const BriefingParts& parts, const SectionDefinition& section) {
  std::vector<TableLine> lines;
  for (const BriefedFigures& briefed : parts.figures.briefed) {
    lines.push_back(briefed_line(briefed));
  }
  const TableWords words{"briefed", parts.wording.text("briefing.caption"),
                         parts.wording.text("briefing.none")};
  return {lay_out(section, lines, words, "", parts.wording)};
}

Blocks lines_to_sign(const BriefingParts& parts) {
  Blocks blocks{document::Paragraph{parts.wording.text("briefing.sign")}};
  for (int i = 0; i < kLinesToSign; ++i) {
    blocks.emplace_back(document::SignatureLine{{parts.wording.text("briefing.name"),
                                                 parts.wording.text("signature.date"),
                                                 parts.wording.text("signature.sign")}});
  }
  return blocks;
}

Blocks briefing_blocks_of(const BriefingParts& parts, const SectionDefinition& section) {
  if (section.id == "caution") return caution_words(parts);
  if (section.id == "validity") return validity_blocks(parts);
  if (section.id == "briefed") return briefed_blocks(parts, section);
  if (section.id == "sign") return lines_to_sign(parts);
  if (section.id == "entered") return entered_blocks(parts.wording);
  assert(section.id == "methods");
  return method_blocks_of(parts.figures.frame, parts.wording, {});
}

const Caution& caution_of(const BriefingSheetFigures& figures, const ReportData& data) {
  const Caution* caution = data.cautions.find(figures.caution);
  assert(caution != nullptr);
  return *caution;
}

base::JsonArray rules_json(const std::vector<findings::Authority>& rules) {
  base::JsonArray json;
  for (const findings::Authority& rule : rules) {
    json.emplace_back(base::JsonObject{{"rule", rule.rule},
                                       {"says", rule.sentence},
                                       {"citation", rule.citation},
                                       {"confidence", findings::word(rule.confidence)}});
  }
  return json;
}

}  // namespace

base::Json briefing_sheet_json(const BriefingSheetFigures& figures, const ReportData& data) {
  const Caution& caution = caution_of(figures, data);
  base::JsonObject json{{"report", kBriefing}, {"caution", figures.caution}};
  for (base::JsonMember& member : frame_json(figures.frame)) json.push_back(std::move(member));
  base::JsonArray briefed;
  for (const BriefedFigures& one : figures.briefed) {
    briefed.emplace_back(base::JsonObject{{"person", one.person},
                                          {"entry", one.entry},
                                          {"briefed_at", base::format_rfc3339(one.briefed_at)},
                                          {"valid_until", base::format_date(one.valid_until)}});
  }
  json.emplace_back("title", caution.title);
  json.emplace_back("sentences",
                    base::JsonArray(caution.sentences.begin(), caution.sentences.end()));
  json.emplace_back("sources", base::JsonArray(caution.sources.begin(), caution.sources.end()));
  json.emplace_back("rules", rules_json(figures.rules));
  json.emplace_back("briefed", std::move(briefed));
  return json;
}

document::Document briefing_sheet_document(const BriefingSheetFigures& figures,
                                           const ReportData& data) {
  const ReportDefinition& definition = data.definitions.get(kBriefing);
  const BriefingParts parts{figures, caution_of(figures, data), data.wording};
  document::Document document = framed_document(
      figures.frame,
      data.wording.text("word.label_and_value",
                        {{"label", definition.title}, {"value", parts.caution.title}}),
      data.wording.text("page.blank"), data.wording);
  document.report_name = kBriefing;
  document.subject_lines = sheet_subject_lines(figures.frame, data.wording);
  for (const SectionDefinition& section : definition.sections) {
    document.sections.push_back(titled_section(data.wording, definition.id, section.id,
                                               briefing_blocks_of(parts, section)));
  }
  return document;
}

}  // namespace benchwarden::reports
