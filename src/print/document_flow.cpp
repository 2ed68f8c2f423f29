#include "print/document_flow.h"

#include <iterator>
#include <utility>
#include <variant>

#include "document/contents.h"
#include "document/lead_in.h"
#include "print/box_bands.h"
#include "print/chart_bands.h"
#include "print/checklist_bands.h"
#include "print/contents_bands.h"
#include "print/scan_code_bands.h"
#include "print/table_bands.h"

namespace benchwarden::print {
namespace {

constexpr Mpt kCautionIndent = points(10);

/// Appends block after block; std::visit calls it with each.
class FlowBuilder {
 public:
  FlowBuilder(const document::Document& document, const Typesetter& type)
      : type_(type),
        headings_(document::ordered_headings(document)),
        index_(document::find_entry_index(document)) {}

  void add_title(const document::Document& document) {
    const Layout& layout = type_.layout();
    const TextStyle title = {layout.title_size, Weight::kStrong};
    const TextStyle subject = {layout.body_size, Weight::kNormal};
    Band band;
    type_.add_lines(band, type_.lines(document.title, type_.width(), title), 0, title);
    for (const std::string& line : document.subject_lines) {
      type_.add_lines(band, type_.lines(line, type_.width(), subject), 0, subject);
    }
    band.height += layout.body_size / 2;
    band.draws.emplace_back(
        LineDraw{0, band.height, type_.width(), band.height, layout.heavy_width, 100});
    band.keep = Keep::kWithNext;
    flow_.bands.push_back(std::move(band));
  }

  void add_section(const document::Section& section) {
    const std::size_t first = flow_.bands.size();
    for (std::size_t i = 0; i < section.blocks.size(); ++i) {
      const std::size_t first_of_block = flow_.bands.size();
      std::visit(*this, section.blocks[i]);
      if (document::leads_in(section, i)) {
        keep_with_next(first_of_block);
      }
    }
    if (section.page_break == document::PageBreak::kBefore && first < flow_.bands.size()) {
      flow_.bands[first].starts_page = true;
    }
  }

  void operator()(const document::Heading& heading) {
    const Mpt size = type_.layout().heading_sizes.at(static_cast<std::size_t>(heading.level) - 1);
    const TextStyle style = {size, Weight::kStrong};
    Band band;
    type_.add_lines(band, type_.lines(heading.text, type_.width(), style), 0, style);
    band.space_before = size * 3 / 2;
    band.keep = Keep::kWithNext;
    document::HeadingPlace place = headings_.at(next_heading_++);
    place.text = type_.printable(place.text);
    band.anchors = {place.anchor};
    band.bookmark = std::move(place);
    flow_.bands.push_back(std::move(band));
  }

  void operator()(const document::Paragraph& paragraph) {
    const Layout& layout = type_.layout();
    const bool caution = paragraph.style == document::ParagraphStyle::kCaution;
    const bool small = paragraph.style == document::ParagraphStyle::kSmall;
    const TextStyle style = {small ? layout.small_size : layout.body_size, Weight::kNormal};
    const Mpt x = caution ? kCautionIndent : 0;
    auto bands = type_.line_bands(type_.lines(paragraph.text, type_.width() - x, style), x, style);
    bands.front().space_before = layout.body_size / 2;
    for (Band& band : bands) {
      if (caution) {
        band.draws.emplace_back(FillDraw{0, 0, 2 * layout.heavy_width, band.height, 100});
      }
      flow_.bands.push_back(std::move(band));
    }
  }

  void operator()(const document::KeyFigures& figures) { add_key_figures(flow_, figures, type_); }
  void operator()(const document::Chart& chart) { add_chart(flow_, chart, type_); }
  void operator()(const document::BarChart& chart) { add_bar_chart(flow_, chart, type_); }
  void operator()(const document::Checklist& list) { add_checklist(flow_, list, type_); }
  void operator()(const document::ScanCode& code) { add_scan_code(flow_, code, type_); }
  void operator()(const document::Contents& contents) {
    add_contents(flow_, contents.title,
                 document::contents_lines(contents, headings_, next_heading_, index_), type_);
  }
  /// Made when the pages are known; see add_entry_index.
  void operator()(const document::EntryIndex&) {}
  void operator()(const document::NoteBox& box) { add_note_box(flow_, box, type_); }
  void operator()(const document::CautionBox& box) { add_caution_box(flow_, box, type_); }
  void operator()(const document::SignatureLine& line) { add_signature_line(flow_, line, type_); }
  void operator()(const document::Table& table) {
    const base::Status<> added = add_table(flow_, table, type_);
    if (!added && status_) {
      status_ = added;
    }
  }

  /// Labels have papers of their own (label_pages.h).
  void operator()(const document::Label&) {}

  base::Result<Flow> take() {
    if (!status_) {
      return status_.error();
    }
    return std::move(flow_);
  }

 private:
  void keep_with_next(std::size_t first) {
    for (std::size_t i = first; i < flow_.bands.size(); ++i) {
      flow_.bands[i].keep = Keep::kWithNext;
    }
  }

  const Typesetter& type_;
  std::vector<document::HeadingPlace> headings_;
  std::size_t next_heading_ = 0;
  const document::EntryIndex* index_;
  Flow flow_;
  base::Status<> status_ = base::Done{};
};

}  // namespace

base::Result<Flow> flow_of(const document::Document& document, const Typesetter& type) {
  FlowBuilder builder(document, type);
  builder.add_title(document);
  for (const document::Section& section : document.sections) {
    builder.add_section(section);
  }
  return builder.take();
}

}  // namespace benchwarden::print
