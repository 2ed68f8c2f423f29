#pragma once

#include <cstdint>
#include <string>

#include "document/chart_layout.h"
#include "document/chart_scale.h"

namespace benchwarden::document {

// Of the frame that holds what is drawn, and of the texts around it; in the unit of the layout.
inline constexpr std::int64_t kChartLeft = 900;
inline constexpr std::int64_t kChartRight = 9'800;
inline constexpr std::int64_t kChartLine = 260;     ///< from one line of text to the next
inline constexpr std::int64_t kChartTextDrop = 65;  ///< from the middle of a line to its baseline
inline constexpr std::int64_t kChartGap = 90;       ///< between the frame and its labels
inline constexpr std::int64_t kThinStroke = 10;
inline constexpr std::int64_t kFrameStroke = 18;
inline constexpr std::int64_t kCurveStroke = 28;
inline constexpr int kBlack = 100;

/// Adds strokes and texts to a layout.
class ChartPen {
 public:
  void stroke(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2,
              std::int64_t thickness, int grey_percent = kBlack);
  void dashed(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2,
              std::int64_t thickness, int grey_percent, std::int64_t dash);
  void text(std::int64_t x, std::int64_t y, Anchor anchor, const std::string& words,
            Reading reading = Reading::kAcross);

  /// A grey line and its label for each tick, the frame's left side and foot, and the label above.
  void value_axis(const ChartScale& scale, std::int64_t top, std::int64_t bottom,
                  const std::string& label);

  void set_height(std::int64_t height) { layout_.height = height; }
  [[nodiscard]] std::int64_t height() const { return layout_.height; }
  ChartLayout take() { return std::move(layout_); }

 private:
  ChartLayout layout_;
};

/// Where a value stands between the foot and the top of the frame.
std::int64_t height_of_value(const ChartScale& scale, std::int64_t value, std::int64_t top,
                             std::int64_t bottom);

}  // namespace benchwarden::document
