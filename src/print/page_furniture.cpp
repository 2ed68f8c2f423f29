#include "print/page_furniture.h"

#include <utility>

#include "base/text.h"

namespace benchwarden::print {
namespace {

constexpr Mpt kMarkPadding = points(3);
constexpr Mpt kGap = points(8);  ///< between the text and what stands above or below it

std::string joined(std::vector<std::string> parts) {
  std::erase_if(parts, [](const std::string& part) { return part.empty(); });
  return base::join(parts, " \u00B7 ");
}

}  // namespace

PageFurniture::PageFurniture(const document::Document& document, const Typesetter& type,
                             std::size_t signs_missing)
    : type_(type) {
  const document::Furniture& words = document.furniture;
  const Layout& layout = type.layout();
  const TextStyle small = {layout.footer_size, Weight::kNormal};
  page_of_ = type.printable(words.page_of);
  const bool marked = document.standing == document::Standing::kNotForIssue;
  if (marked) {
    mark_lines_ = type.lines(words.not_for_issue, type.width() - 2 * kMarkPadding,
                             {layout.body_size, Weight::kStrong});
    head_height_ = static_cast<Mpt>(mark_lines_.size()) * type.line_height(layout.body_size) +
                   2 * kMarkPadding + kGap;
  }
  // The widest page number is kept clear at the right of every line.
  const std::string widest = base::fill(page_of_, {{"page", "0000"}, {"pages", "0000"}});
  const Mpt room = type.width() - type.width_of(widest, small.size) - kGap;
  // The title stands on the first page in full; here it is what gives way when room is short.
  const auto first = type.lines(joined({words.site, words.period, document.title}), room, small);
  foot_lines_.push_back(first.front() + (first.size() > 1 ? "\u2026" : ""));
  const std::string missing =
      signs_missing == 0
          ? std::string()
          : base::fill(words.signs_missing, {{"count", std::to_string(signs_missing)}});
  const auto more = type.lines(
      joined({marked ? words.not_for_issue : std::string(), words.made_at, words.book_size,
              words.tree_head, words.figures, document.report_id, missing}),
      room, small);
  foot_lines_.insert(foot_lines_.end(), more.begin(), more.end());
  foot_height_ =
      kGap + points(3) + static_cast<Mpt>(foot_lines_.size()) * type.line_height(small.size);
}

std::vector<Draw> PageFurniture::head() const {
  if (mark_lines_.empty()) {
    return {};
  }
  const Layout& layout = type_.layout();
  const TextStyle style = {layout.body_size, Weight::kStrong};
  std::vector<Draw> draws;
  Mpt top = kMarkPadding;
  for (const std::string& line : mark_lines_) {
    const Mpt x = (type_.width() - type_.width_of(line, style.size)) / 2;
    draws.emplace_back(type_.line(line, x, top, style));
    top += type_.line_height(style.size);
  }
  const Mpt bottom = top + kMarkPadding;
  const Mpt right = type_.width();
  const Mpt pen = layout.heavy_width;
  const Mpt half = pen / 2;
  draws.emplace_back(LineDraw{0, half, right, half, pen, 100});
  draws.emplace_back(LineDraw{0, bottom - half, right, bottom - half, pen, 100});
  draws.emplace_back(LineDraw{half, 0, half, bottom, pen, 100});
  draws.emplace_back(LineDraw{right - half, 0, right - half, bottom, pen, 100});
  return draws;
}

std::vector<Draw> PageFurniture::foot(std::size_t page, std::size_t pages) const {
  const Layout& layout = type_.layout();
  const TextStyle style = {layout.footer_size, Weight::kNormal};
  std::vector<Draw> draws;
  draws.emplace_back(LineDraw{0, kGap, type_.width(), kGap, layout.rule_width, 100});
  Mpt top = kGap + points(3);
  std::string number =
      base::fill(page_of_, {{"page", std::to_string(page)}, {"pages", std::to_string(pages)}});
  const Mpt x = type_.width() - type_.width_of(number, style.size);
  draws.emplace_back(type_.line(std::move(number), x, top, style));
  for (const std::string& line : foot_lines_) {
    draws.emplace_back(type_.line(line, 0, top, style));
    top += type_.line_height(style.size);
  }
  return draws;
}

}  // namespace benchwarden::print
