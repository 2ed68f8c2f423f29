#include "document/chart_pen.h"

#include <algorithm>
#include <cstdlib>

namespace benchwarden::document {
namespace {

constexpr int kGridGrey = 25;

}  // namespace

void ChartPen::stroke(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2,
                      std::int64_t thickness, int grey_percent) {
  layout_.strokes.push_back({x1, y1, x2, y2, thickness, grey_percent});
}

void ChartPen::dashed(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2,
                      std::int64_t thickness, int grey_percent, std::int64_t dash) {
  const std::int64_t length = std::max(std::abs(x2 - x1), std::abs(y2 - y1));
  const auto part = [&](std::int64_t from, std::int64_t to, std::int64_t done) {
    return from + (to - from) * done / length;
  };
  for (std::int64_t done = 0; done < length; done += 2 * dash) {
    const std::int64_t end = std::min(done + dash, length);
    stroke(part(x1, x2, done), part(y1, y2, done), part(x1, x2, end), part(y1, y2, end), thickness,
           grey_percent);
  }
}

void ChartPen::text(std::int64_t x, std::int64_t y, Anchor anchor, const std::string& words,
                    Reading reading) {
  layout_.texts.push_back({x, y, anchor, words, reading});
}

void ChartPen::value_axis(const ChartScale& scale, std::int64_t top, std::int64_t bottom,
                          const std::string& label) {
  for (const Tick& tick : scale.ticks) {
    const std::int64_t y = height_of_value(scale, tick.at, top, bottom);
    stroke(kChartLeft, y, kChartRight, y, kThinStroke, kGridGrey);
    text(kChartLeft - kChartGap, y + kChartTextDrop, Anchor::kEnd, tick.label);
  }
  stroke(kChartLeft, top, kChartLeft, bottom, kFrameStroke);
  stroke(kChartLeft, bottom, kChartRight, bottom, kFrameStroke);
  text(0, kChartLine * 2 / 3, Anchor::kStart, label);
}

std::int64_t height_of_value(const ChartScale& scale, std::int64_t value, std::int64_t top,
                             std::int64_t bottom) {
  const double share =
      static_cast<double>(value - scale.low) / static_cast<double>(scale.high - scale.low);
  return bottom - static_cast<std::int64_t>(share * static_cast<double>(bottom - top));
}

}  // namespace benchwarden::document
