#include "print/pdf.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "base/text.h"
#include "document/contents.h"
#include "print/clean_text.h"
#include "print/document_flow.h"
#include "print/entry_index.h"
#include "print/label_pages.h"
#include "print/page_flow.h"
#include "print/page_furniture.h"
#include "print/pdf_file.h"
#include "print/references.h"
#include "print/typesetter.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

void append(std::vector<Draw>& draws, std::vector<Draw> more, Mpt down) {
  for (Draw& draw : more) {
    draws.push_back(moved(std::move(draw), down));
  }
}

std::vector<Page> add_furniture(std::vector<Page> pages, const PageFurniture& furniture,
                                Mpt text_height) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Page& page = pages[i];
    for (Draw& draw : page.draws) {
      draw = moved(std::move(draw), furniture.head_height());
    }
    for (Bookmark& bookmark : page.bookmarks) {
      bookmark.y += furniture.head_height();
    }
    for (AnchorPlace& place : page.anchors) {
      place.y += furniture.head_height();
    }
    append(page.draws, furniture.head(), 0);
    append(page.draws, furniture.foot(i + 1, pages.size()), furniture.head_height() + text_height);
  }
  return pages;
}

std::size_t signs_missing(const std::vector<Band>& bands) {
  std::size_t count = 0;
  for (const Band& band : bands) {
    for (const Draw& draw : band.draws) {
      const auto* text = std::get_if<TextDraw>(&draw);
      if (text == nullptr) continue;
      const std::u32string signs = decode_utf8(text->text);
      count += static_cast<std::size_t>(std::count(signs.begin(), signs.end(), kReplacement));
    }
  }
  return count;
}

PdfPlan plan_of(const document::Document& document, const PdfOptions& options,
                const FontMetrics& font) {
  PdfPlan plan;
  plan.title = printable_text(document.title, font);
  plan.author = printable_text(document.author, font);
  plan.subject = printable_text(base::join(document.subject_lines, "; "), font);
  plan.language = printable_text(document.language, font);
  plan.made_at = options.made_at;
  plan.paper_width = size_of(options.paper).width;
  plan.paper_height = size_of(options.paper).height;
  plan.bold_percent = options.layout.bold_percent;
  return plan;
}

base::Result<std::vector<Page>> text_pages(const document::Document& document,
                                           const PdfOptions& options, const FontMetrics& font) {
  if (!holds_pages(options.paper)) {
    return base::Error{
        base::ErrorCode::kInvalid,
        "paper '" + std::string(size_of(options.paper).name) + "'; accepted: a4, letter"};
  }
  const Layout& layout = options.layout;
  constexpr PaperSize kA4 = size_of(Paper::kA4);
  constexpr PaperSize kLetter = size_of(Paper::kLetter);
  const Mpt width = std::min(kA4.width, kLetter.width) - layout.binding_edge - layout.margin;
  const Mpt height = std::min(kA4.height, kLetter.height) - 2 * layout.margin;
  const Typesetter type(layout, font, width);
  const auto flow = flow_of(document, type);
  if (!flow) {
    return flow.error();
  }
  const PageFurniture furniture(document, type,
                                signs_missing(flow->bands) + signs_missing(flow->table_heads));
  const Mpt text_height = height - furniture.head_height() - furniture.foot_height();
  if (text_height < height / 2) {
    return base::Error{base::ErrorCode::kInternal, "the foot lines leave no room for the text"};
  }
  std::vector<Page> pages = cut_into_pages(*flow, width, text_height);
  const document::EntryIndex* index = document::find_entry_index(document);
  if (index != nullptr) add_entry_index(pages, *index, type, text_height);
  pages = add_furniture(std::move(pages), furniture, text_height);
  resolve_references(pages, font);
  return pages;
}

}  // namespace

base::Result<std::string> to_pdf(const document::Document& document, const PdfOptions& options) {
  const auto font = FontMetrics::read(options.font_bytes);
  if (!font) {
    return base::Error{base::ErrorCode::kInternal, font.error().detail};
  }
  const bool labels = document.form == document::Form::kLabels;
  auto pages = labels ? label_pages(document, options.paper, options.layout, *font)
                      : text_pages(document, options, *font);
  if (!pages) {
    return pages.error();
  }
  PdfPlan plan = plan_of(document, options, *font);
  if (!labels) {
    plan.text_left = options.layout.binding_edge;
    plan.text_top = options.layout.margin;
  }
  plan.pages = *std::move(pages);
  return write_pdf(plan, options.font_bytes);
}

}  // namespace benchwarden::print
