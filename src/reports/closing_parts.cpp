#include "reports/closing_parts.h"

#include <cassert>
#include <utility>

#include "base/text.h"
#include "reports/number_text.h"

namespace benchwarden::reports {

namespace {

document::SectionRole role_of(std::string_view id) {
  if (id == "signature") return document::SectionRole::kSignature;
  if (id == "cautions") return document::SectionRole::kCautions;
  if (id == "methods") return document::SectionRole::kMethods;
  return document::SectionRole::kBody;
}

}  // namespace

document::Section titled_section(const ReportWording& wording, std::string_view report,
                                 const std::string& id, Blocks blocks) {
  document::Section section;
  section.role = role_of(id);
  section.blocks = std::move(blocks);
  section.blocks.insert(section.blocks.begin(),
                        document::Heading{1, wording.section(report, id), id});
  return section;
}

Blocks caution_blocks(const ReportDefinition& definition, const ReportData& data) {
  Blocks blocks;
  for (const std::string& id : definition.cautions) {
    const Caution* caution = data.cautions.find(id);
    assert(caution != nullptr);
    document::CautionBox box = caution_box(*caution);
    const std::string sources = base::join(box.sources, data.wording.text("word.row_mark"));
    box.sources = {data.wording.text("cautions.source", {{"source", sources}})};
    blocks.emplace_back(std::move(box));
  }
  return blocks;
}

Blocks method_blocks_of(const Frame& frame, const ReportWording& wording,
                        const std::vector<std::string>& own) {
  std::vector<std::string> said = own;
  said.push_back(wording.text("methods.register", {{"size", count_text(frame.book_size)}}));
  said.push_back(wording.text("methods.no_verdict"));
  said.push_back(tree_head_line(frame, wording));
  for (std::string& line : pack_lines(frame, wording)) said.push_back(std::move(line));
  Blocks blocks;
  for (std::string& text : said) {
    blocks.emplace_back(document::Paragraph{std::move(text), document::ParagraphStyle::kSmall});
  }
  return blocks;
}

Blocks signature_blocks(const ReportWording& wording) {
  return {document::Paragraph{wording.text("signature.intro"), document::ParagraphStyle::kSmall},
          document::SignatureLine{{wording.text("signature.name"), wording.text("signature.date"),
                                   wording.text("signature.sign")}}};
}

}  // namespace benchwarden::reports
