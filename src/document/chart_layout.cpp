#include "document/chart_layout.h"

#include <algorithm>

#include "document/chart_pen.h"
#include "document/chart_scale.h"

namespace benchwarden::document {
namespace {

constexpr std::int64_t kTop = 320;
constexpr std::int64_t kBottom = 3'600;
constexpr std::int64_t kMarkHalf = 45;  // half the width of a mark
constexpr std::int64_t kSample = 450;   // of a curve in the lines below
constexpr int kEventGrey = 60;

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
    draw_axes();
    for (const ChartEvents& events : chart_.events) {
      for (const std::int64_t time : events.times_ms) {
        pen_.dashed(x_of(time), kTop, x_of(time), kBottom, kFrameStroke, kEventGrey, kShort);
      }
    }
    for (const ChartLimit& limit : chart_.limits) {
      for (const std::int64_t value : limit.values)
        draw_limit(kChartLeft, kChartRight, y_of(value));
    }
    for (const ChartSeries& series : chart_.series) draw_series(series);
    add_legend();
    return pen_.take();
  }

 private:
  static constexpr std::int64_t kShort = 40;  // dashes
  static constexpr std::int64_t kLong = 130;

  [[nodiscard]] std::int64_t x_of(std::int64_t time_ms) const {
    const double share =
        static_cast<double>(time_ms - times_.low) / static_cast<double>(times_.high - times_.low);
    return kChartLeft +
           static_cast<std::int64_t>(share * static_cast<double>(kChartRight - kChartLeft));
  }
  [[nodiscard]] std::int64_t y_of(std::int64_t value) const {
    return height_of_value(values_, value, kTop, kBottom);
  }

  void draw_limit(std::int64_t from, std::int64_t to, std::int64_t y) {
    pen_.dashed(from, y, to, y, kCurveStroke, kBlack, kLong);
  }

  void draw_axes() {
    pen_.value_axis(values_, kTop, kBottom, chart_.value_label);
    for (const Tick& tick : times_.ticks) {
      const std::int64_t x = x_of(tick.at);
      pen_.stroke(x, kBottom, x, kBottom + kChartGap / 2, kFrameStroke);
      pen_.text(x, kBottom + kChartGap / 2 + kChartLine * 3 / 4, Anchor::kMiddle, tick.label);
    }
    pen_.text(kChartRight, kBottom + kChartGap / 2 + kChartLine * 7 / 4, Anchor::kEnd,
              chart_.time_label);
  }

  void draw_mark(Mark mark, std::int64_t x, std::int64_t y) {
    constexpr std::int64_t h = kMarkHalf;
    switch (mark) {
      case Mark::kNone:
        return;
      case Mark::kDot:
        return pen_.stroke(x - h, y, x + h, y, 2 * h, kBlack);
      case Mark::kRing:
        pen_.stroke(x - h, y, x, y - h, kFrameStroke);
        pen_.stroke(x, y - h, x + h, y, kFrameStroke);
        pen_.stroke(x + h, y, x, y + h, kFrameStroke);
        return pen_.stroke(x, y + h, x - h, y, kFrameStroke);
      case Mark::kTriangle:
        pen_.stroke(x - 2 * h, y + h, x + 2 * h, y + h, kCurveStroke);
        pen_.stroke(x - 2 * h, y + h, x, y - 2 * h, kCurveStroke);
        return pen_.stroke(x + 2 * h, y + h, x, y - 2 * h, kCurveStroke);
      case Mark::kCross:
        pen_.stroke(x - 2 * h, y - 2 * h, x + 2 * h, y + 2 * h, kCurveStroke);
        return pen_.stroke(x - 2 * h, y + 2 * h, x + 2 * h, y - 2 * h, kCurveStroke);
    }
  }

  void join(Joined joined, std::int64_t x1, std::int64_t y1, std::int64_t x2, std::int64_t y2) {
    if (joined == Joined::kSolid) pen_.stroke(x1, y1, x2, y2, kCurveStroke);
    if (joined == Joined::kDashed) pen_.dashed(x1, y1, x2, y2, kCurveStroke, kBlack, kShort);
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
    pen_.set_height(pen_.height() + kChartLine);
    const std::int64_t middle = pen_.height() - kChartLine / 2;
    pen_.text(kChartLeft + kSample + kChartGap, middle + kChartTextDrop, Anchor::kStart, name);
    return middle;
  }

  void add_legend() {
    pen_.set_height(kBottom + kChartGap + 2 * kChartLine);
    for (const ChartSeries& series : chart_.series) {
      const std::int64_t y = legend_line(series.name);
      join(series.joined, kChartLeft, y, kChartLeft + kSample, y);
      draw_mark(series.mark, kChartLeft + kSample / 2, y);
    }
    for (const ChartLimit& limit : chart_.limits) {
      draw_limit(kChartLeft, kChartLeft + kSample, legend_line(limit.name));
    }
    for (const ChartEvents& events : chart_.events) {
      const std::int64_t y = legend_line(events.name);
      pen_.dashed(kChartLeft + kSample / 2, y - kChartLine * 2 / 5, kChartLeft + kSample / 2,
                  y + kChartLine * 2 / 5, kFrameStroke, kEventGrey, kShort);
    }
  }

  const Chart& chart_;
  ChartScale times_;
  ChartScale values_;
  ChartPen pen_;
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
