#include "print/label_box.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "document/qr_code.h"
#include "print/label_parts.h"
#include "print/page_flow.h"
#include "print/paper.h"
#include "print/pictogram_rows.h"

namespace benchwarden::print {
namespace {

base::Error misfit(const std::string& why) { return {base::ErrorCode::kInvalid, why}; }

Mpt millimetres(Mpt whole) { return from_micrometres(1000 * whole); }

std::string in_millimetres(Mpt length) {
  return std::to_string((length * 254 + 719'000) / 720'000) + " mm";  // rounded up
}

/// How the type of a label is tried: so far of the way from the smallest to the largest.
struct TypeSteps {
  std::vector<int> percents;   ///< the largest first
  int least_with_if_room = 0;  ///< what may be left out must not make the rest smaller
};

TypeSteps paper_steps() {
  constexpr int kStep = 2;
  constexpr int kLeastWithRoom = 40;
  TypeSteps steps{{}, kLeastWithRoom};
  for (int percent = 100; percent >= 0; percent -= kStep) steps.percents.push_back(percent);
  return steps;
}

/// On a roll everything fits: a middle size saves paper.
TypeSteps roll_steps() { return {{50, 0}, 0}; }

class LabelFitter {
 public:
  LabelFitter(const document::Label& label, const LabelBox& box, const Layout& layout,
              const FontMetrics& font)
      : label_(label),
        box_(box),
        layout_(with_leading(layout)),
        font_(font),
        type_(layout_, font, box.width - 2 * layout.label.margin) {}

  base::Result<LaidLabel> run() {
    if (const auto fault = too_small()) return misfit(*fault);
    const auto fault = set_code();
    if (!fault) return fault.error();
    const std::vector<Mpt> sides = pictogram_sides();
    for (const Mpt pictogram : sides) {
      if (fits(parts_at(0, pictogram, {}), pictogram)) return largest(pictogram);
    }
    return misfit(too_large(parts_at(0, sides.back(), {})));
  }

 private:
  using IfRoom = std::vector<std::size_t>;  ///< which of what may be left out

  [[nodiscard]] LabelParts parts_at(int percent, Mpt pictogram, const IfRoom& if_room) const {
    return label_parts(label_, code_, sizes(percent, pictogram, if_room), type_);
  }

  /// Each that has room beside those before it.
  [[nodiscard]] IfRoom that_fit(int percent, Mpt pictogram) const {
    IfRoom chosen;
    for (std::size_t i = 0; i < label_.if_room.size(); ++i) {
      chosen.push_back(i);
      if (!fits(parts_at(percent, pictogram, chosen), pictogram)) chosen.pop_back();
    }
    return chosen;
  }

  /// The largest type, where the smallest fits.
  [[nodiscard]] LaidLabel largest(Mpt pictogram) const {
    const TypeSteps steps = box_.height == 0 ? roll_steps() : paper_steps();
    const IfRoom if_room = that_fit(steps.least_with_if_room, pictogram);
    for (const int percent : steps.percents) {
      LabelParts parts = parts_at(percent, pictogram, if_room);
      if (fits(parts, pictogram)) return laid(std::move(parts), if_room);
    }
    return laid(parts_at(0, pictogram, {}), {});
  }

  static Layout with_leading(Layout layout) {
    layout.leading_percent = layout.label.leading_percent;
    return layout;
  }

  /// The table is about labels that bear pictograms; others may be smaller.
  [[nodiscard]] std::optional<std::string> too_small() const {
    if (!label_.least || label_.pictograms.empty()) return std::nullopt;
    const document::LabelSize& least = *label_.least;
    const bool wide_enough = box_.width >= millimetres(least.width_mm);
    const bool high_enough = box_.height == 0 || box_.height >= millimetres(least.height_mm);
    if (wide_enough && high_enough) return std::nullopt;
    return "bears pictograms and needs at least " + std::to_string(least.width_mm) + " x " +
           std::to_string(least.height_mm) + " mm (" + least.source + ")";
  }

  base::Status<> set_code() {
    auto rows = document::qr_code(label_.code, document::QrLevel::kQ);
    if (!rows) return misfit("cannot bear its code: " + rows.error().detail);
    code_.rows = *std::move(rows);
    const auto modules = static_cast<Mpt>(code_.rows.size());
    const bool large = box_.width >= size_of(Paper::kA6).width;
    const Mpt side = large ? layout_.label.qr_side : layout_.label.small_qr_side;
    // Rounded up: the side is the least.
    code_.module = std::max((side + modules - 1) / modules, layout_.label.qr_module);
    if (code_.side() <= type_.width() * 3 / 5) return base::Done{};
    return misfit("bears a code of " + in_millimetres(code_.side()) +
                  ", too wide to stand beside its id");
  }

  /// As the whole label asks for, and where there is no room for that, as the size it must have.
  [[nodiscard]] std::vector<Mpt> pictogram_sides() const {
    if (label_.pictograms.empty()) return {layout_.label.pictogram_side};  // none is drawn
    Mpt least = layout_.label.pictogram_side;
    if (label_.least) {
      least = std::max(
          from_micrometres(label_.least->pictogram_um),
          side_for(millimetres(label_.least->width_mm), millimetres(label_.least->height_mm)));
    }
    if (box_.height != 0) {
      const Mpt wanted = std::max(least, side_for(box_.width, box_.height));
      if (!label_.least || wanted == least) return {wanted};
      return {wanted, least};
    }
    if (label_.least) return {least};
    std::vector<Mpt> sides;  // a longer label asks for larger ones
    for (Mpt side = least; diagonal_of(side) <= type_.width(); side += millimetres(1)) {
      sides.push_back(side);
    }
    return sides;
  }

  /// The side of the square that has its share of a label of that size.
  [[nodiscard]] Mpt side_for(Mpt width, Mpt height) const {
    const double area = static_cast<double>(width) * static_cast<double>(height);
    const auto side = static_cast<Mpt>(std::ceil(std::sqrt(area / layout_.label.pictogram_share)));
    return std::max(side, layout_.label.pictogram_side);
  }

  [[nodiscard]] LabelSizes sizes(int percent, Mpt pictogram, const IfRoom& if_room) const {
    const LabelLayout& most = layout_.label;
    const Mpt x_height =
        std::max(most.x_height, label_.least ? from_micrometres(label_.least->x_height_um) : 0);
    const Mpt text = font_.size_for_x_height(x_height);
    const Mpt name = std::max(font_.size_for_cap_height(most.name_cap_height), text);
    const Mpt words = std::max(font_.size_for_cap_height(most.words_cap_height), name);
    const auto between = [&](Mpt largest, Mpt smallest) {
      return smallest + std::max<Mpt>(largest - smallest, 0) * percent / 100;
    };
    return {between(most.words_size, words),
            words,
            between(most.name_size, name),
            between(most.id_size, name),
            between(most.text_size, text),
            pictogram,
            if_room};
  }

  [[nodiscard]] Mpt height_of(const LabelParts& parts) const {
    return 2 * layout_.label.margin + parts.top.height + parts.bottom.height;
  }

  [[nodiscard]] bool fits(const LabelParts& parts, Mpt pictogram) const {
    if (parts.word_too_wide) return false;
    if (box_.height != 0) return height_of(parts) <= box_.height;
    const bool has_its_size = label_.pictograms.empty() || label_.least;
    return has_its_size || pictogram >= side_for(box_.width, roll_height(parts));
  }

  [[nodiscard]] Mpt roll_height(const LabelParts& parts) const {
    const bool asked = label_.least && !label_.pictograms.empty();
    const Mpt least = asked ? millimetres(label_.least->height_mm) : 0;
    return std::max(height_of(parts), least);
  }

  [[nodiscard]] LaidLabel laid(LabelParts parts, const IfRoom& if_room) const {
    LaidLabel laid{box_.height == 0 ? roll_height(parts) : box_.height, {}, if_room};
    const Mpt margin = layout_.label.margin;
    add(laid, parts.top, margin);
    add(laid, parts.bottom, laid.height - margin - parts.bottom.height);
    return laid;
  }

  void add(LaidLabel& laid, Band& band, Mpt top) const {
    for (Draw& draw : band.draws) {
      laid.draws.push_back(shifted(std::move(draw), {layout_.label.margin, top}));
    }
  }

  [[nodiscard]] std::string too_large(const LabelParts& parts) const {
    if (parts.word_too_wide) {
      return "bears words ('" + label_.words + "') too wide to be read from 2 m on this paper";
    }
    const auto longest = std::max_element(
        parts.heights.begin(), parts.heights.end(),
        [](const PartHeight& a, const PartHeight& b) { return a.height < b.height; });
    return "needs " + in_millimetres(height_of(parts)) + " of height at the smallest type allowed" +
           (box_.height == 0 ? "" : ", where there are " + in_millimetres(box_.height)) +
           "; the longest part is its " + std::string(longest->name) + " with " +
           in_millimetres(longest->height);
  }

  const document::Label& label_;
  const LabelBox box_;
  const Layout layout_;
  const FontMetrics& font_;
  const Typesetter type_;
  LabelCode code_;
};

}  // namespace

base::Result<LaidLabel> lay_out_label(const document::Label& label, const LabelBox& box,
                                      const Layout& layout, const FontMetrics& font) {
  return LabelFitter(label, box, layout, font).run();
}

}  // namespace benchwarden::print
