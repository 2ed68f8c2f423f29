#include "print/label_sheet.h"

#include <array>
#include <cassert>
#include <utility>
#include <variant>

#include "print/page_flow.h"
#include "print/paper.h"

namespace benchwarden::print {
namespace {

constexpr Mpt kShort = from_micrometres(74'000);
constexpr Mpt kMiddle = from_micrometres(105'000);
constexpr Mpt kLong = from_micrometres(148'000);
constexpr Mpt kLongest = from_micrometres(210'000);

/// A way to cut the sheet. Labels are laid out upright; where they stand turned, the field is as
/// wide as the label is high.
struct FieldForm {
  LabelBox label;
  Turn turn = Turn::kNone;
  std::size_t columns = 1;
  std::size_t rows = 1;
};
// All cut up one area of 148 x 210 mm, within the margins of A4 and of Letter.
constexpr std::array kForms{FieldForm{{kShort, kMiddle}, Turn::kNone, 2, 2},   // A7
                            FieldForm{{kMiddle, kLong}, Turn::kRight, 1, 2},   // A6
                            FieldForm{{kLong, kLongest}, Turn::kNone, 1, 1}};  // A5

Mpt field_width(const FieldForm& form) {
  return form.turn == Turn::kNone ? form.label.width : form.label.height;
}
Mpt field_height(const FieldForm& form) {
  return form.turn == Turn::kNone ? form.label.height : form.label.width;
}

/// A label of that height, turned right by a quarter.
Draw turned(Draw draw, Mpt height) {
  const auto turn_point = [&](Mpt& x, Mpt& y) {
    const Mpt before = x;
    x = height - y;
    y = before;
  };
  if (auto* text = std::get_if<TextDraw>(&draw)) {
    turn_point(text->x, text->y);
    text->turn = Turn::kRight;
  } else if (auto* fill = std::get_if<FillDraw>(&draw)) {
    fill->y += fill->height;  // what was its lower left becomes its upper left
    turn_point(fill->x, fill->y);
    std::swap(fill->width, fill->height);
  } else if (auto* line = std::get_if<LineDraw>(&draw)) {
    turn_point(line->x1, line->y1);
    turn_point(line->x2, line->y2);
  } else if (auto* area = std::get_if<AreaDraw>(&draw)) {
    for (std::vector<Point>& ring : area->rings) {
      for (Point& point : ring) turn_point(point.x, point.y);
    }
  }
  return draw;
}

/// Short lines outside the corners of the fields, where a knife begins and ends.
void add_cut_marks(Page& page, const FieldForm& form, Point at, Mpt thickness) {
  constexpr Mpt kApart = from_micrometres(1'500);
  constexpr Mpt kMark = from_micrometres(6'000);
  const Mpt right = at.x + kLong;
  const Mpt bottom = at.y + kLongest;
  for (std::size_t i = 0; i <= form.columns; ++i) {
    const Mpt x = at.x + static_cast<Mpt>(i) * field_width(form);
    page.draws.emplace_back(LineDraw{x, at.y - kApart - kMark, x, at.y - kApart, thickness});
    page.draws.emplace_back(LineDraw{x, bottom + kApart, x, bottom + kApart + kMark, thickness});
  }
  for (std::size_t i = 0; i <= form.rows; ++i) {
    const Mpt y = at.y + static_cast<Mpt>(i) * field_height(form);
    page.draws.emplace_back(LineDraw{at.x - kApart - kMark, y, at.x - kApart, y, thickness});
    page.draws.emplace_back(LineDraw{right + kApart, y, right + kApart + kMark, y, thickness});
  }
}

/// The top left of the area that is cut up, in the middle of what both papers print.
Point area_start(const Layout& layout) {
  constexpr Mpt kBothWidth = std::min(size_of(Paper::kA4).width, size_of(Paper::kLetter).width);
  constexpr Mpt kBothHeight = std::min(size_of(Paper::kA4).height, size_of(Paper::kLetter).height);
  const Mpt left = layout.binding_edge;
  return {left + (kBothWidth - left - layout.margin - kLong) / 2, (kBothHeight - kLongest) / 2};
}

bool is_large_enough(const FieldForm& form, const document::Label& label) {
  if (!label.least) return true;
  return form.label.width >= from_micrometres(Mpt{1000} * label.least->width_mm) &&
         form.label.height >= from_micrometres(Mpt{1000} * label.least->height_mm);
}

}  // namespace

base::Result<SheetLabel> fit_on_sheet(const document::Label& label, const Layout& layout,
                                      const FontMetrics& font) {
  for (std::size_t form = 0; form + 1 < kForms.size(); ++form) {
    if (!is_large_enough(kForms.at(form), label)) continue;
    auto laid = lay_out_label(label, kForms.at(form).label, layout, font);
    if (laid) return SheetLabel{form, *std::move(laid)};
  }
  auto laid = lay_out_label(label, kForms.back().label, layout, font);
  if (!laid) return laid.error();
  return SheetLabel{kForms.size() - 1, *std::move(laid)};
}

void SheetCutter::start_page(std::size_t form) {
  form_ = form;
  used_ = 0;
  add_cut_marks(pages_.emplace_back(), kForms.at(form), area_start(layout_), layout_.rule_width);
}

void SheetCutter::add(SheetLabel label, document::HeadingPlace title) {
  const FieldForm& form = kForms.at(label.form);
  if (form_ != label.form || used_ == form.columns * form.rows) start_page(label.form);
  const Point start = area_start(layout_);
  const Point at{start.x + static_cast<Mpt>(used_ % form.columns) * field_width(form),
                 start.y + static_cast<Mpt>(used_ / form.columns) * field_height(form)};
  ++used_;
  Page& page = pages_.back();
  for (Draw& draw : label.laid.draws) {
    if (form.turn == Turn::kRight) draw = turned(std::move(draw), form.label.height);
    page.draws.push_back(shifted(std::move(draw), at));
  }
  page.bookmarks.push_back({std::move(title), at.y});
}

std::vector<Page> SheetCutter::take_pages() { return std::move(pages_); }

}  // namespace benchwarden::print
