#include "print/chart_bands.h"

#include <utility>

#include "document/chart_layout.h"

namespace benchwarden::print {

void add_chart(Flow& flow, const document::Chart& chart, const Typesetter& type) {
  const document::ChartLayout layout = document::lay_out_chart(chart);
  if (layout.height == 0) return;
  const Mpt size = type.layout().table_size;
  const TextStyle caption = {type.layout().body_size, Weight::kStrong};
  Band band;
  band.space_before = type.layout().body_size;
  band.space_after = type.layout().body_size;
  type.add_lines(band, type.lines(chart.caption, type.width(), caption), 0, caption);
  const Mpt top = band.height;
  const auto scaled = [&](std::int64_t length) {
    return length * type.width() / document::kChartWidth;
  };
  for (const document::ChartStroke& line : layout.strokes) {
    band.draws.emplace_back(LineDraw{scaled(line.x1), top + scaled(line.y1), scaled(line.x2),
                                     top + scaled(line.y2), scaled(line.thickness),
                                     line.grey_percent});
  }
  for (const document::ChartText& text : layout.texts) {
    std::string words = type.printable(text.text);
    const Mpt width = type.width_of(words, size);
    Mpt x = scaled(text.x);
    if (text.anchor == document::Anchor::kMiddle) x -= width / 2;
    if (text.anchor == document::Anchor::kEnd) x -= width;
    band.draws.emplace_back(
        TextDraw{x, top + scaled(text.y), size, Weight::kNormal, std::move(words)});
  }
  band.height = top + scaled(layout.height);
  flow.bands.push_back(std::move(band));
}

}  // namespace benchwarden::print
