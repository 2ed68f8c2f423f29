#include "reports/closing_parts.h"

#include <cassert>
#include <utility>

#include "base/text.h"

namespace benchwarden::reports {

document::Section titled_section(const std::string& heading, Blocks blocks) {
  document::Section section;
  section.blocks = std::move(blocks);
  section.blocks.insert(section.blocks.begin(), document::Heading{1, heading});
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

Blocks signature_blocks(const ReportWording& wording) {
  return {document::Paragraph{wording.text("signature.intro"), document::ParagraphStyle::kSmall},
          document::SignatureLine{{wording.text("signature.name"), wording.text("signature.date"),
                                   wording.text("signature.sign")}}};
}

}  // namespace benchwarden::reports
