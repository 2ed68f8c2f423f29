#include "print/chart_bands.h"

#include <algorithm>
#include <utility>

#include "document/bar_chart_layout.h"
#include "document/chart_layout.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

Mpt scaled(std::int64_t length, const Typesetter& type) {
  return length * type.width() / document::kChartWidth;
}

/// Printable text on one line, or as much of it as `room` holds with "…" at its end.
std::string fitted(const std::string& text, Mpt room, Mpt size, const Typesetter& type) {
  std::string words = type.printable(text);
  std::replace(words.begin(), words.end(), '\n', ' ');
  if (type.width_of(words, size) <= room) return words;
  const std::string more = "\u2026";
  std::u32string kept;
  Mpt used = type.width_of(more, size);
  for (const char32_t sign : decode_utf8(words)) {
    used += type.font().width_of(sign, size);
    if (used > room) break;
    kept += sign;
  }
  return encode_utf8(kept) + more;
}

/// How far a text may reach, from where it is anchored, within a drawing of that width or height.
Mpt room_for(document::Anchor anchor, Mpt before, Mpt after) {
  switch (anchor) {
    case document::Anchor::kStart:
      return after;
    case document::Anchor::kMiddle:
      return 2 * std::min(before, after);
    case document::Anchor::kEnd:
      return before;
  }
  return 0;
}

TextDraw chart_text(const document::ChartText& text, Mpt height, const Typesetter& type) {
  const Mpt size = type.layout().table_size;
  const bool turned = text.reading == document::Reading::kUpwards;
  TextDraw draw{scaled(text.x, type),
                scaled(text.y, type),
                size,
                Weight::kNormal,
                "",
                turned ? Turn::kLeft : Turn::kNone};
  const Mpt before = turned ? height - draw.y : draw.x;
  const Mpt after = turned ? draw.y : type.width() - draw.x;
  draw.text = fitted(text.text, room_for(text.anchor, before, after), size, type);
  const Mpt length = type.width_of(draw.text, size);
  const Mpt back = text.anchor == document::Anchor::kMiddle ? length / 2
                   : text.anchor == document::Anchor::kEnd  ? length
                                                            : 0;
  (turned ? draw.y : draw.x) += turned ? back : -back;
  return draw;
}

void add_drawing(Flow& flow, const std::string& caption, const document::ChartLayout& layout,
                 const Typesetter& type) {
  if (layout.height == 0) return;
  const TextStyle style = {type.layout().body_size, Weight::kStrong};
  Band band;
  band.space_before = type.layout().body_size;
  band.space_after = type.layout().body_size;
  type.add_lines(band, type.lines(caption, type.width(), style), 0, style);
  const Mpt top = band.height;
  for (const document::ChartStroke& line : layout.strokes) {
    band.draws.emplace_back(LineDraw{scaled(line.x1, type), top + scaled(line.y1, type),
                                     scaled(line.x2, type), top + scaled(line.y2, type),
                                     scaled(line.thickness, type), line.grey_percent});
  }
  const Mpt height = scaled(layout.height, type);
  for (const document::ChartText& text : layout.texts) {
    TextDraw draw = chart_text(text, height, type);
    draw.y += top;
    band.draws.emplace_back(std::move(draw));
  }
  band.height = top + height;
  flow.bands.push_back(std::move(band));
}

}  // namespace

void add_chart(Flow& flow, const document::Chart& chart, const Typesetter& type) {
  add_drawing(flow, chart.caption, document::lay_out_chart(chart), type);
}

void add_bar_chart(Flow& flow, const document::BarChart& chart, const Typesetter& type) {
  add_drawing(flow, chart.caption, document::lay_out_bar_chart(chart), type);
}

}  // namespace benchwarden::print
