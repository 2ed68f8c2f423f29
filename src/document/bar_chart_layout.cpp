#include "document/bar_chart_layout.h"

#include <algorithm>
#include <cassert>
#include <vector>

#include "base/text.h"
#include "document/chart_pen.h"
#include "document/short_lines.h"

namespace benchwarden::document {
namespace {

constexpr std::int64_t kBarsHeight = 2'900;
constexpr std::int64_t kBarWidthMost = 700;
constexpr std::int64_t kSignWidth = 120;  // of a digit, and more than that of most letters
constexpr std::size_t kNameLinesMost = 3;
constexpr std::size_t kTurnedNameMost = 16;   // signs
constexpr std::size_t kTurnedValueMost = 14;  // signs
constexpr int kBarGrey = 12;

std::int64_t width_of_signs(std::size_t count) {
  return static_cast<std::int64_t>(count) * kSignWidth;
}

class BarChartBuilder {
 public:
  explicit BarChartBuilder(const BarChart& chart)
      : chart_(chart),
        pitch_((kChartRight - kChartLeft) / static_cast<std::int64_t>(chart.bars.size())),
        signs_(static_cast<std::size_t>(std::max(pitch_ / kSignWidth, std::int64_t{1}))) {
    std::int64_t highest = 0;
    for (const Bar& bar : chart.bars) {
      assert(bar.value >= 0);
      highest = std::max(highest, bar.value);
      value_signs_ = std::max(value_signs_, base::count_code_points(bar.value_text));
      name_signs_ = std::max(name_signs_, base::count_code_points(bar.name));
      names_turned_ = names_turned_ || !fits_across(bar.name);
    }
    scale_ = value_scale(0, highest);
    values_turned_ = value_signs_ > signs_;
    value_signs_ = std::min(value_signs_, kTurnedValueMost);
    name_signs_ = std::min(name_signs_, kTurnedNameMost);
    top_ = kChartLine + (values_turned_ ? width_of_signs(value_signs_) : kChartLine);
    bottom_ = top_ + kBarsHeight;
  }

  ChartLayout build() {
    pen_.value_axis(scale_, top_, bottom_, chart_.value_label);
    std::int64_t middle = kChartLeft + pitch_ / 2;
    for (const Bar& bar : chart_.bars) {
      draw_bar(bar, middle);
      add_name(bar.name, middle);
      middle += pitch_;
    }
    pen_.set_height(bottom_ + kChartGap + names_height());
    return pen_.take();
  }

 private:
  /// On a few lines, no word broken.
  [[nodiscard]] bool fits_across(const std::string& name) const {
    const std::vector<std::string> lines = short_lines(name, signs_);
    return lines.size() <= kNameLinesMost && base::join(lines, " ") == name;
  }

  [[nodiscard]] std::int64_t names_height() const {
    if (names_turned_) return width_of_signs(name_signs_);
    std::size_t lines = 1;
    for (const Bar& bar : chart_.bars) {
      lines = std::max(lines, short_lines(bar.name, signs_).size());
    }
    return static_cast<std::int64_t>(lines) * kChartLine;
  }

  void draw_bar(const Bar& bar, std::int64_t middle) {
    const std::int64_t half = std::min(pitch_ * 3 / 10, kBarWidthMost / 2);
    const std::int64_t y = height_of_value(scale_, bar.value, top_, bottom_);
    const std::int64_t left = middle - half;
    const std::int64_t right = middle + half;
    if (bar.value > 0) {
      pen_.stroke(middle, y, middle, bottom_, right - left, kBarGrey);
      pen_.stroke(left, bottom_, left, y, kCurveStroke);
      pen_.stroke(right, bottom_, right, y, kCurveStroke);
    }
    pen_.stroke(left, y, right, y, kCurveStroke);
    if (values_turned_) {
      pen_.text(middle + kChartTextDrop, y - kChartGap, Anchor::kStart,
                shortened(bar.value_text, kTurnedValueMost), Reading::kUpwards);
    } else {
      pen_.text(middle, y - kChartGap, Anchor::kMiddle, bar.value_text);
    }
  }

  void add_name(const std::string& name, std::int64_t middle) {
    if (names_turned_) {
      return pen_.text(middle + kChartTextDrop, bottom_ + kChartGap, Anchor::kEnd,
                       shortened(name, kTurnedNameMost), Reading::kUpwards);
    }
    std::int64_t y = bottom_ + kChartLine;
    for (const std::string& line : short_lines(name, signs_)) {
      pen_.text(middle, y, Anchor::kMiddle, line);
      y += kChartLine;
    }
  }

  const BarChart& chart_;
  ChartScale scale_;
  std::int64_t pitch_;           ///< from one bar to the next
  std::size_t signs_;            ///< that fit above or below one bar
  std::size_t value_signs_ = 0;  ///< of the longest, as it is turned
  std::size_t name_signs_ = 0;   ///< of the longest, as it is turned
  bool values_turned_ = false;
  bool names_turned_ = false;
  std::int64_t top_ = 0;
  std::int64_t bottom_ = 0;
  ChartPen pen_;
};

}  // namespace

ChartLayout lay_out_bar_chart(const BarChart& chart) {
  if (chart.bars.empty()) return {};
  return BarChartBuilder(chart).build();
}

}  // namespace benchwarden::document
