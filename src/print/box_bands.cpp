#include "print/box_bands.h"

#include <algorithm>
#include <utility>

namespace benchwarden::print {
namespace {

constexpr Mpt kBoxPadding = points(8);
constexpr Mpt kBullet = points(10);
constexpr Mpt kColumnGap = points(14);
/// Room to write above a signature line, 13 mm.
constexpr Mpt kWritingRoom = from_micrometres(13000);
/// A box of more lines than this may run over a page break.
constexpr std::size_t kLinesKeptTogether = 18;

/// The bands of one framed box.
class BoxSetter {
 public:
  BoxSetter(const Typesetter& type, Mpt bar) : type_(type), left_(kBoxPadding + bar) {}

  void add(const std::string& text, const TextStyle& style, Mpt indent) {
    const Mpt x = left_ + indent;
    auto added =
        type_.line_bands(type_.lines(text, type_.width() - x - kBoxPadding, style), x, style);
    std::move(added.begin(), added.end(), std::back_inserter(bands_));
  }
  /// As add, with a bullet in front.
  void add_item(const std::string& text, const TextStyle& style) {
    const std::size_t first = bands_.size();
    add(text, style, kBullet);
    bands_[first].draws.emplace_back(type_.line("\u2022", left_, 0, style));
  }

  void finish(Flow& flow, const Frame& frame) {
    flow.frames.push_back(frame);
    bands_.front().keep = Keep::kWithNext;
    pad(bands_.front());
    bands_.back().height += kBoxPadding * 3 / 4;
    bands_.front().space_before = type_.layout().body_size;
    bands_.back().space_after = type_.layout().body_size;
    const bool together = bands_.size() <= kLinesKeptTogether;
    for (Band& band : bands_) {
      band.frame = flow.frames.size() - 1;
      if (together) {
        band.keep = Keep::kWithNext;
      }
    }
    bands_.back().keep = Keep::kFree;
    std::move(bands_.begin(), bands_.end(), std::back_inserter(flow.bands));
  }

 private:
  static void pad(Band& band) {
    for (Draw& draw : band.draws) {
      if (auto* text = std::get_if<TextDraw>(&draw)) {
        text->y += kBoxPadding * 3 / 4;
      }
    }
    band.height += kBoxPadding * 3 / 4;
  }

  const Typesetter& type_;
  Mpt left_;
  std::vector<Band> bands_;
};

struct Grid {
  std::size_t columns = 1;
  Mpt cell_width = 0;
  [[nodiscard]] Mpt x(std::size_t index) const {
    return static_cast<Mpt>(index % columns) * (cell_width + kColumnGap);
  }
};

Grid grid_of(std::size_t columns, Mpt width) {
  const auto count = static_cast<Mpt>(columns);
  return {columns, (width - kColumnGap * (count - 1)) / count};
}

/// Label, and below it the figure with its unit; returns the lowest point.
Mpt add_figure(Band& band, const document::KeyFigure& figure, Mpt x, Mpt width,
               const Typesetter& type) {
  const Layout& layout = type.layout();
  const TextStyle label = {layout.small_size, Weight::kNormal};
  const TextStyle value = {layout.figure_size, Weight::kStrong};
  Mpt top = 0;
  for (const std::string& line : type.lines(figure.label, width, label)) {
    band.draws.emplace_back(type.line(line, x, top, label));
    top += type.line_height(label.size);
  }
  TextDraw last;
  for (const std::string& line : type.lines(figure.value, width, value)) {
    last = type.line(line, x, top, value);
    band.draws.emplace_back(last);
    if (!figure.link.empty()) band.draws.emplace_back(type.link_under(last, figure.link));
    top += type.line_height(value.size);
  }
  const Mpt unit_x = x + type.width_of(last.text, value.size) + points(4);
  const std::string unit = type.printable(figure.unit);
  if (unit_x + type.width_of(unit, layout.body_size) <= x + width) {
    band.draws.emplace_back(TextDraw{unit_x, last.y, layout.body_size, Weight::kNormal, unit});
    return top;
  }
  for (const std::string& line : type.lines(unit, width, label)) {
    band.draws.emplace_back(type.line(line, x, top, label));
    top += type.line_height(label.size);
  }
  return top;
}

}  // namespace

void add_note_box(Flow& flow, const document::NoteBox& box, const Typesetter& type) {
  const Layout& layout = type.layout();
  const TextStyle body = {layout.body_size, Weight::kNormal};
  BoxSetter setter(type, 0);
  setter.add(box.title, {layout.body_size, Weight::kStrong}, 0);
  for (const std::string& line : box.lines) {
    setter.add_item(line, body);
  }
  if (box.lines.empty()) {
    setter.add(box.when_empty, body, 0);
  }
  setter.finish(flow, {layout.frame_width, 0});
}

void add_caution_box(Flow& flow, const document::CautionBox& box, const Typesetter& type) {
  const Layout& layout = type.layout();
  const Mpt bar = points(4);
  BoxSetter setter(type, bar);
  setter.add(box.title, {layout.body_size, Weight::kStrong}, 0);
  for (const std::string& sentence : box.sentences) {
    setter.add(sentence, {layout.body_size, Weight::kNormal}, 0);
  }
  for (const std::string& source : box.sources) {
    setter.add(source, {layout.small_size, Weight::kNormal}, 0);
  }
  setter.finish(flow, {layout.frame_width, bar});
}

void add_key_figures(Flow& flow, const document::KeyFigures& figures, const Typesetter& type) {
  const std::size_t count = figures.figures.size();
  const std::size_t columns = count > 4 ? 3 : std::max<std::size_t>(count, 2);
  const Grid grid = grid_of(columns, type.width());
  for (std::size_t first = 0; first < count; first += columns) {
    Band band;
    band.space_before = type.layout().body_size;
    for (std::size_t i = first; i < std::min(count, first + columns); ++i) {
      band.height = std::max(
          band.height, add_figure(band, figures.figures[i], grid.x(i), grid.cell_width, type));
    }
    flow.bands.push_back(std::move(band));
  }
}

void add_signature_line(Flow& flow, const document::SignatureLine& line, const Typesetter& type) {
  const std::size_t count = line.labels.size();
  const std::size_t columns = std::clamp<std::size_t>(count, 1, 3);
  const Grid grid = grid_of(columns, type.width());
  const TextStyle style = {type.layout().small_size, Weight::kNormal};
  for (std::size_t first = 0; first < count; first += columns) {
    Band band;
    band.space_before = type.layout().body_size;
    for (std::size_t i = first; i < std::min(count, first + columns); ++i) {
      const Mpt x = grid.x(i);
      band.draws.emplace_back(LineDraw{x, kWritingRoom, x + grid.cell_width, kWritingRoom,
                                       type.layout().frame_width, 100});
      Mpt top = kWritingRoom + points(2);
      for (const std::string& text : type.lines(line.labels[i], grid.cell_width, style)) {
        band.draws.emplace_back(type.line(text, x, top, style));
        top += type.line_height(style.size);
      }
      band.height = std::max(band.height, top);
    }
    band.keep = first + columns < count ? Keep::kWithNext : Keep::kFree;
    flow.bands.push_back(std::move(band));
  }
}

}  // namespace benchwarden::print
