#include "reports/seal_parts.h"

#include <utility>

#include "document/contents.h"
#include "reports/number_text.h"

namespace benchwarden::reports {
namespace {

document::Section seal_section(const SealOfReport& seal, const ReportWording& wording) {
  const auto small = [](std::string text) {
    return document::Paragraph{std::move(text), document::ParagraphStyle::kSmall};
  };
  document::Section section;
  section.page_break = document::PageBreak::kBefore;  // to be kept, and read, as one page
  section.blocks = {document::Heading{1, wording.text("seal.title"), "seal"},
                    small(wording.text("seal.book", {{"size", count_text(seal.book_size)},
                                                     {"root", base::to_hex(seal.book_root)}})),
                    small(wording.text("seal.figures", {{"digest", seal.figures_digest}})),
                    small(wording.text("seal.key", {{"key", seal.verifier_key}})),
                    document::ScanCode{seal.note,
                                       {wording.text("seal.code"), wording.text("seal.check"),
                                        wording.text("seal.limit")}}};
  return section;
}

}  // namespace

void add_seal(document::Document& document, const SealOfReport& seal,
              const ReportWording& wording) {
  constexpr std::size_t kShortDigest = 16;
  document.furniture.figures =
      wording.text("page.figures", {{"digest", seal.figures_digest.substr(0, kShortDigest)}});
  // An index of entries ends a document, whatever else there is.
  const bool has_index = document::find_entry_index(document) != nullptr;
  document.sections.insert(document.sections.end() - (has_index ? 1 : 0),
                           seal_section(seal, wording));
}

}  // namespace benchwarden::reports
