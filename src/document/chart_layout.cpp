#include "document/chart_layout.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>

#include "document/chart_scale.h"

namespace benchwarden::document {
namespace {

// Of the frame that holds the curves.
constexpr std::int64_t kLeft = 900;
constexpr std::int64_t kRight = 9'800;
constexpr std::int64_t kTop = 320;
constexpr std::int64_t kBottom = 3'600;

constexpr std::int64_t kLine = 260;     // from one line of text to the next
constexpr std::int64_t kTextDrop = 65;  // from the middle of a line of text to its baseline
constexpr std::int64_t kGap = 90;       // between the frame and its labels
constexpr std::int64_t kMarkHalf = 45;  // half the width of a mark
constexpr std::int64_t kSample = 450;   // of a curve in the lines below
constexpr std::int64_t kThin = 10;
constexpr std::int64_t kFrame = 18;
constexpr std::int64_t kCurve = 28;
constexpr int kGridGrey = 25;
constexpr int kEventGrey = 60;
constexpr int kBlack = 100;

struct Range {
  std::int64_t low = INT64_MAX;
  std::int64_t high = INT64_MIN;
  void hold(std::int64_t value) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
  [[nodiscard]] bool empty() const { return low > high; }
};

/// So that no limit lies on the frame.
void widen(Range& values) {
  const std::int64_t margin = (values.high - values.low) / 20;
  values.hold(values.low - margin);
  values.hold(values.high + margin);
}

class ChartBuilder {
 public:
  ChartBuilder(const Chart& chart, const Range& times, const Range& values)
      : chart_(chart),
        times_(time_scale(times.low, times.high)),
        values_(value_scale(values.low, values.high)) {}

  ChartLayout build() {
    draw_grid();
    for (const ChartEvents& events : chart_.events) {
      for (const std::int64_t time : events.times_ms) {
        dashed(x_of(time), kTop, x_of(time), kBottom, kFrame, kEventGrey, kShort);
      }
    }
    for (const ChartLimit& limit : chart_.limits) {
      for (const std::int64_t value : limit.values) draw_limit(kLeft, kRight, y_of(value));
    }
    for (const ChartSeries& series : chart_.series) draw_series(series);
    add_legend();
    return std::move(layout_);
  }

 private:
  static constexpr std::int64_t kShort = 40;  // dashes
  static constexpr std::int64_t kLong = 130;

  [[nodiscard]] std::int64_t x_of(std::int64_t time_ms) const {
    const double share =
        static_cast<double>(time_ms - times_.low) / static_cast<double>(times_.high - times_.low);
    return kLeft + static_cast<std::int64_t>(share * static_cast<double>(kRight - kLeft));
  }
  [[nodiscard]] std::int64_t y_of(std::int64_t value) const {
    const double share =
        static_cast<double>(value - values_.low) / static_cast<double>(values_.high - values_.low);
    return kBottom - static_cast<std::int64_t>(share * static_cast<double>(kBottom - kTop));
  }

  void stroke(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2,
              std::int64_t thickness, int grey) {
    layout_.strokes.push_back({x1, y1, x2, y2, thickness, grey});
  }

  void dashed(std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2,
              std::int64_t thickness, int grey, std::int64_t dash) {
    const std::int64_t length = std::max(std::abs(x2 - x1), std::abs(y2 - y1));
    const auto part = [&](std::int64_t from, std::int64_t to, std::int64_t done) {
      return from + (to - from) * done / length;
    };
    for (std::int64_t done = 0; done < length; done += 2 * dash) {
      const std::int64_t end = std::min(done + dash, length);
      stroke(part(x1, x2, done), part(y1, y2, done), part(x1, x2, end), part(y1, y2, end),
             thickness, grey);
    }
  }

  void draw_limit(std::int64_t from, std::int64_t to, std::int64_t y) {
    dashed(from, y, to, y, kCurve, kBlack, kLong);
  }

  void text(std::int64_t x, std::int64_t y, Anchor anchor, const std::string& words) {
    layout_.texts.push_back({x, y, anchor, words});
  }

  void draw_grid() {
    for (const Tick& tick : values_.ticks) {
      const std::int64_t y = y_of(tick.at);
      stroke(kLeft, y, kRight, y, kThin, kGridGrey);
      text(kLeft - kGap, y + kTextDrop, Anchor::kEnd, tick.label);
    }
    for (const Tick& tick : times_.ticks) {
      const std::int64_t x = x_of(tick.at);
      stroke(x, kBottom, x, kBottom + kGap / 2, kFrame, kBlack);
      text(x, kBottom + kGap / 2 + kLine * 3 / 4, Anchor::kMiddle, tick.label);
    }
    stroke(kLeft, kTop, kLeft, kBottom, kFrame, kBlack);
    stroke(kLeft, kBottom, kRight, kBottom, kFrame, kBlack);
    text(0, kLine * 2 / 3, Anchor::kStart, chart_.value_label);
    text(kRight, kBottom + kGap / 2 + kLine * 7 / 4, Anchor::kEnd, chart_.time_label);
  }

  void draw_mark(Mark mark, std::int64_t x, std::int64_t y) {
    constexpr std::int64_t h = kMarkHalf;
    switch (mark) {
      case Mark::kNone:
        return;
      case Mark::kDot:
        return stroke(x - h, y, x + h, y, 2 * h, kBlack);
      case Mark::kRing:
        stroke(x - h, y, x, y - h, kFrame, kBlack);
        stroke(x, y - h, x + h, y, kFrame, kBlack);
        stroke(x + h, y, x, y + h, kFrame, kBlack);
        return stroke(x, y + h, x - h, y, kFrame, kBlack);
      case Mark::kTriangle:
        stroke(x - 2 * h, y + h, x + 2 * h, y + h, kCurve, kBlack);
        stroke(x - 2 * h, y + h, x, y - 2 * h, kCurve, kBlack);
        return stroke(x + 2 * h, y + h, x, y - 2 * h, kCurve, kBlack);
      case Mark::kCross:
        stroke(x - 2 * h, y - 2 * h, x + 2 * h, y + 2 * h, kCurve, kBlack);
        return stroke(x - 2 * h, y + 2 * h, x + 2 * h, y - 2 * h, kCurve, kBlack);
    }
  }

  void join(Joined joined, std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2) {
    if (joined == Joined::kSolid) stroke(x1, y1, x2, y2, kCurve, kBlack);
    if (joined == Joined::kDashed) dashed(x1, y1, x2, y2, kCurve, kBlack, kShort);
  }

  void draw_series(const ChartSeries& series) {
    for (const std::vector<ChartPoint>& run : series.runs) {
      for (std::size_t i = 0; i < run.size(); ++i) {
        const std::int64_t x = x_of(run[i].time_ms);
        const std::int64_t y = y_of(run[i].value);
        if (i > 0) join(series.joined, x_of(run[i - 1].time_ms), y_of(run[i - 1].value), x, y);
        draw_mark(series.mark, x, y);
      }
    }
  }

  /// The middle of the next line below the chart, its words written.
  std::int64_t legend_line(const std::string& name) {
    layout_.height += kLine;
    const std::int64_t middle = layout_.height - kLine / 2;
    text(kLeft + kSample + kGap, middle + kTextDrop, Anchor::kStart, name);
    return middle;
  }

  void add_legend() {
    layout_.height = kBottom + kGap + 2 * kLine;
    for (const ChartSeries& series : chart_.series) {
      const std::int64_t y = legend_line(series.name);
      join(series.joined, kLeft, y, kLeft + kSample, y);
      draw_mark(series.mark, kLeft + kSample / 2, y);
    }
    for (const ChartLimit& limit : chart_.limits) {
      draw_limit(kLeft, kLeft + kSample, legend_line(limit.name));
    }
    for (const ChartEvents& events : chart_.events) {
      const std::int64_t y = legend_line(events.name);
      dashed(kLeft + kSample / 2, y - kLine * 2 / 5, kLeft + kSample / 2, y + kLine * 2 / 5, kFrame,
             kEventGrey, kShort);
    }
  }

  const Chart& chart_;
  ChartScale times_;
  ChartScale values_;
  ChartLayout layout_;
};

}  // namespace

ChartLayout lay_out_chart(const Chart& chart) {
  Range times;
  Range values;
  for (const ChartSeries& series : chart.series) {
    for (const std::vector<ChartPoint>& run : series.runs) {
      for (const ChartPoint& point : run) {
        times.hold(point.time_ms);
        values.hold(point.value);
      }
    }
  }
  if (times.empty()) return {};
  for (const ChartEvents& events : chart.events) {
    for (const std::int64_t time : events.times_ms) times.hold(time);
  }
  for (const ChartLimit& limit : chart.limits) {
    for (const std::int64_t value : limit.values) values.hold(value);
  }
  if (chart.from_zero) {
    values.hold(0);
  } else {
    widen(values);
  }
  return ChartBuilder(chart, times, values).build();
}

}  // namespace benchwarden::document
