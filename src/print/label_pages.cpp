#include "print/label_pages.h"

#include <algorithm>
#include <cassert>
#include <string>
#include <utility>
#include <variant>

#include "base/text.h"
#include "print/clean_text.h"
#include "print/label_sheet.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

std::size_t count_missing(const std::string& text, const FontMetrics& font) {
  const std::u32string signs = decode_utf8(printable_text(text, font));
  return static_cast<std::size_t>(std::count(signs.begin(), signs.end(), kReplacement));
}

std::size_t count_missing(const document::Label& label, const FontMetrics& font) {
  std::size_t count = 0;
  for (const std::string* text : {&label.words, &label.name, &label.pictograms_source, &label.id}) {
    count += count_missing(*text, font);
  }
  for (const document::LabelFact& fact : label.facts) {
    count += count_missing(fact.label, font) + count_missing(fact.value, font);
  }
  for (const auto* lines : {&label.warnings, &label.remarks, &label.if_room, &label.foot}) {
    for (const std::string& line : *lines) count += count_missing(line, font);
  }
  return count;
}

/// The labels, each with what else has to stand on every page of the document.
std::vector<document::Label> labels_of(const document::Document& document,
                                       const FontMetrics& font) {
  std::vector<document::Label> labels;
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) {
      assert(std::holds_alternative<document::Label>(block));
      document::Label& label = labels.emplace_back(std::get<document::Label>(block));
      const std::size_t missing = count_missing(label, font);
      if (missing > 0) {
        label.foot.push_back(
            base::fill(document.furniture.signs_missing, {{"count", std::to_string(missing)}}));
      }
      if (document.standing == document::Standing::kNotForIssue) {
        label.foot.push_back(document.furniture.not_for_issue);
      }
    }
  }
  return labels;
}

document::HeadingPlace title_of(const document::Label& label, const FontMetrics& font) {
  return {1, printable_text(label.title, font)};
}

class LabelPrinter {
 public:
  LabelPrinter(const Layout& layout, const FontMetrics& font) : layout_(layout), font_(font) {}

  base::Result<std::vector<Page>> one_a_page(const std::vector<document::Label>& labels,
                                             Paper paper) const {
    std::vector<Page> pages;
    for (const document::Label& label : labels) {
      auto laid = lay_out_label(label, box_of(paper), layout_, font_);
      if (!laid) return refused(label, paper, laid.error());
      Page page;
      page.paper_height = laid->height;
      page.draws = std::move(laid->draws);
      page.bookmarks.push_back({title_of(label, font_), 0});
      pages.push_back(std::move(page));
    }
    return pages;
  }

  base::Result<std::vector<Page>> sheets(const std::vector<document::Label>& labels,
                                         Paper paper) const {
    std::vector<std::pair<const document::Label*, SheetLabel>> fitted;
    for (const document::Label& label : labels) {
      auto one = fit_on_sheet(label, layout_, font_);
      if (!one) return refused(label, paper, one.error());
      fitted.emplace_back(&label, *std::move(one));
    }
    std::stable_sort(fitted.begin(), fitted.end(),
                     [](const auto& a, const auto& b) { return a.second.form < b.second.form; });
    SheetCutter cutter(layout_);
    for (auto& [label, one] : fitted) cutter.add(std::move(one), title_of(*label, font_));
    return cutter.take_pages();
  }

  /// Of what may be left out, what has no room on that paper.
  [[nodiscard]] std::vector<std::string> left_out(const document::Label& label, Paper paper) const {
    const auto laid = laid_on(label, paper);
    std::vector<std::string> texts;
    if (!laid) return texts;
    for (std::size_t i = 0; i < label.if_room.size(); ++i) {
      const bool printed = std::count(laid->if_room.begin(), laid->if_room.end(), i) > 0;
      if (!printed) texts.push_back(label.if_room[i]);
    }
    return texts;
  }

 private:
  static LabelBox box_of(Paper paper) { return {size_of(paper).width, size_of(paper).height}; }

  [[nodiscard]] base::Result<LaidLabel> laid_on(const document::Label& label, Paper paper) const {
    if (!holds_pages(paper)) return lay_out_label(label, box_of(paper), layout_, font_);
    auto one = fit_on_sheet(label, layout_, font_);
    if (!one) return one.error();
    return std::move(one->laid);
  }

  /// The fault, and which paper would do.
  [[nodiscard]] base::Error refused(const document::Label& label, Paper paper,
                                    const base::Error& why) const {
    std::vector<std::string> accepted;
    for (const PaperSize& other : kPapers) {
      if (laid_on(label, other.value).ok()) accepted.emplace_back(other.name);
    }
    return {
        why.code,
        "the label of " + label.title + " does not fit on '" + std::string(size_of(paper).name) +
            "': it " + why.detail + "; accepted: " +
            (accepted.empty() ? "shorter texts, or fewer pictograms" : base::join(accepted, ", "))};
  }

  const Layout& layout_;
  const FontMetrics& font_;
};

}  // namespace

void tell_left_out(document::Document& document, Paper paper, const Layout& layout,
                   const FontMetrics& font) {
  const LabelPrinter printer(layout, font);
  const std::vector<document::Label> printed = labels_of(document, font);
  std::size_t index = 0;
  for (document::Section& section : document.sections) {
    for (document::Block& block : section.blocks) {
      std::get<document::Label>(block).left_out = printer.left_out(printed[index++], paper);
    }
  }
}

base::Result<std::vector<Page>> label_pages(const document::Document& document, Paper paper,
                                            const Layout& layout, const FontMetrics& font) {
  const std::vector<document::Label> labels = labels_of(document, font);
  if (labels.empty()) return base::Error{base::ErrorCode::kInternal, "there is no label to print"};
  const LabelPrinter printer(layout, font);
  return holds_pages(paper) ? printer.sheets(labels, paper) : printer.one_a_page(labels, paper);
}

}  // namespace benchwarden::print
