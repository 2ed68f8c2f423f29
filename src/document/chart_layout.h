#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "document/chart.h"

namespace benchwarden::document {

/// All lengths of a layout are ten-thousandths of the chart's width, from its top left.
inline constexpr std::int64_t kChartWidth = 10'000;

/// Solid; dashes are strokes of their own.
struct ChartStroke {
  std::int64_t x1 = 0;
  std::int64_t y1 = 0;
  std::int64_t x2 = 0;
  std::int64_t y2 = 0;
  std::int64_t thickness = 0;
  int grey_percent = 100;  ///< 100 is black
};

enum class Anchor { kStart, kMiddle, kEnd };
enum class Reading { kAcross, kUpwards };  ///< the latter is turned a quarter to the left
struct ChartText {
  std::int64_t x = 0;
  std::int64_t y = 0;  ///< of the baseline
  Anchor anchor = Anchor::kStart;
  std::string text;
  Reading reading = Reading::kAcross;
};

struct ChartLayout {
  std::int64_t height = 0;
  std::vector<ChartStroke> strokes;
  std::vector<ChartText> texts;
};

/// The chart as lines and texts, the same for paper and screen; below it a line for each series,
/// limit and event that says how it is drawn. Without any point there is nothing.
ChartLayout lay_out_chart(const Chart& chart);

}  // namespace benchwarden::document
