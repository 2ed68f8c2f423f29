#include "print/checklist_bands.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace benchwarden::print {
namespace {

/// Large enough to be hit with a thick pen; common practice, no source.
constexpr Mpt kTickBox = from_micrometres(5'500);
constexpr Mpt kWriteHeight = from_micrometres(9'000);
constexpr Mpt kItemPadding = points(3);
constexpr Mpt kBoxGap = points(4);      ///< between a box and its word
constexpr Mpt kAnswerGap = points(12);  ///< between answers, and between text and answers
constexpr Mpt kWriteWidthMin = points(90);

class ChecklistSetter {
 public:
  ChecklistSetter(const document::Checklist& list, const Typesetter& type)
      : type_(type), style_{type.layout().body_size, Weight::kNormal} {
    std::vector<Mpt> slots;  // as wide as the widest answer of any item in that place
    bool writes = false;
    for (const document::ChecklistItem& item : list.items) {
      slots.resize(std::max(slots.size(), item.answers.size()));
      for (std::size_t i = 0; i < item.answers.size(); ++i) {
        slots[i] = std::max(slots[i], answer_width(item.answers[i]));
      }
      writes = writes || !item.write.empty();
    }
    Mpt wanted = 0;
    for (const Mpt slot : slots) wanted += slot + kAnswerGap;
    const Mpt least = writes ? kWriteWidthMin : 0;
    right_width_ = std::clamp(wanted - kAnswerGap, least, type.width() * 55 / 100);
    slots_ = std::move(slots);
  }

  [[nodiscard]] Band band(const document::ChecklistItem& item) const {
    Band band;
    const Mpt text_width = type_.width() - right_width_ - kAnswerGap;
    band.height = kItemPadding + (kTickBox - type_.line_height(style_.size)) / 2;
    type_.add_lines(band, type_.lines(item.text, text_width, style_), 0, style_);
    Mpt bottom = kItemPadding + kTickBox;
    if (!item.answers.empty()) bottom = add_answers(band, item.answers);
    if (!item.write.empty()) {
      bottom = add_write_line(band, item.write, item.answers.empty() ? kItemPadding : bottom);
    }
    band.height = std::max(band.height, bottom) + kItemPadding;
    band.draws.emplace_back(LineDraw{0, band.height, type_.width(), band.height,
                                     type_.layout().rule_width, type_.layout().rule_grey_percent});
    return band;
  }

 private:
  [[nodiscard]] Mpt right_x() const { return type_.width() - right_width_; }
  [[nodiscard]] Mpt answer_width(const std::string& answer) const {
    const Mpt words = type_.width_of(type_.printable(answer), style_.size);
    return kTickBox + kBoxGap + std::max(words, style_.size);
  }

  /// Side by side, each below the same place of the item above; on a new row where they do not fit.
  Mpt add_answers(Band& band, const std::vector<std::string>& answers) const {
    Mpt x = right_x();
    Mpt top = kItemPadding;
    Mpt bottom = top;
    for (std::size_t i = 0; i < answers.size(); ++i) {
      const Mpt width = std::min(slots_[i], right_width_);
      if (x > right_x() && x + width > type_.width()) {
        x = right_x();
        top = bottom + kItemPadding;
      }
      bottom = std::max(bottom, add_answer(band, answers[i], x, top));
      x += width + kAnswerGap;
    }
    return bottom;
  }

  Mpt add_answer(Band& band, const std::string& answer, Mpt x, Mpt top) const {
    const Mpt pen = type_.layout().frame_width;
    const Mpt right = x + kTickBox;
    const Mpt bottom = top + kTickBox;
    const Mpt half = pen / 2;
    band.draws.emplace_back(LineDraw{x, top + half, right, top + half, pen});
    band.draws.emplace_back(LineDraw{x, bottom - half, right, bottom - half, pen});
    band.draws.emplace_back(LineDraw{x + half, top, x + half, bottom, pen});
    band.draws.emplace_back(LineDraw{right - half, top, right - half, bottom, pen});
    const Mpt words_x = right + kBoxGap;
    Mpt line_top = top + (kTickBox - type_.line_height(style_.size)) / 2;
    for (std::string& line : type_.lines(answer, type_.width() - words_x, style_)) {
      band.draws.emplace_back(type_.line(std::move(line), words_x, line_top, style_));
      line_top += type_.line_height(style_.size);
    }
    return std::max(bottom, line_top);
  }

  /// The label stands behind the line as a unit does, or below it where it is long.
  Mpt add_write_line(Band& band, const std::string& label, Mpt top) const {
    const Mpt y = top + kWriteHeight;
    const Mpt x = right_x();
    const std::string words = type_.printable(label);
    const Mpt width = type_.width_of(words, style_.size);
    const bool behind = width <= right_width_ / 2 && words.find('\n') == std::string::npos;
    const Mpt end = behind ? type_.width() - width - kBoxGap : type_.width();
    band.draws.emplace_back(LineDraw{x, y, end, y, type_.layout().frame_width});
    if (behind) {
      const Mpt line_top = y - type_.line_height(style_.size) * 4 / 5;
      band.draws.emplace_back(type_.line(words, end + kBoxGap, line_top, style_));
      return y + kItemPadding;
    }
    const TextStyle small = {type_.layout().small_size, Weight::kNormal};
    Mpt line_top = y + points(1);
    for (std::string& line : type_.lines(label, right_width_, small)) {
      band.draws.emplace_back(type_.line(std::move(line), x, line_top, small));
      line_top += type_.line_height(small.size);
    }
    return line_top;
  }

  const Typesetter& type_;
  TextStyle style_;
  Mpt right_width_ = 0;
  std::vector<Mpt> slots_;
};

Band caption_band(const std::string& text, const Typesetter& type) {
  const TextStyle style = {type.layout().body_size, Weight::kStrong};
  Band band;
  type.add_lines(band, type.lines(text, type.width(), style), 0, style);
  return band;
}

}  // namespace

void add_checklist(Flow& flow, const document::Checklist& list, const Typesetter& type) {
  if (list.items.empty()) return;
  const std::size_t first = flow.bands.size();
  if (!list.caption.empty()) {
    flow.bands.push_back(caption_band(list.caption, type));
    flow.bands.back().keep = Keep::kWithNext;
  }
  std::optional<std::size_t> head;
  if (!list.continued.empty()) {
    head = flow.table_heads.size();
    flow.table_heads.push_back(caption_band(list.continued, type));
  }
  const ChecklistSetter setter(list, type);
  for (const document::ChecklistItem& item : list.items) {
    flow.bands.push_back(setter.band(item));
    flow.bands.back().table = head;
  }
  flow.bands[first].space_before = type.layout().body_size;
  flow.bands.back().space_after = type.layout().body_size;
}

}  // namespace benchwarden::print
