#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace benchwarden::document {

/// A moment as clocks on the wall show it, and a value in thousandths of the chart's unit.
struct ChartPoint {
  std::int64_t time_ms = 0;  ///< local time, from 1970-01-01 00:00 on
  std::int64_t value = 0;
};

/// How points are marked; told apart without colour.
enum class Mark { kNone, kDot, kRing, kTriangle, kCross };
enum class Joined { kNot, kSolid, kDashed };

struct ChartSeries {
  std::string name;
  Mark mark = Mark::kDot;
  Joined joined = Joined::kSolid;
  std::vector<std::vector<ChartPoint>> runs;  ///< points are joined within a run
};

/// A line across the chart.
struct ChartLimit {
  std::string name;
  std::vector<std::int64_t> values;
};

/// Moments at which something was done, as lines from top to bottom.
struct ChartEvents {
  std::string name;
  std::vector<std::int64_t> times_ms;
};

/// Values over time. The figures themselves stand in a table beside it, for machines too.
struct Chart {
  std::string caption;
  std::string value_label;  ///< with the unit
  std::string time_label;
  bool from_zero = false;  ///< the scale begins at 0
  std::vector<ChartSeries> series;
  std::vector<ChartLimit> limits;
  std::vector<ChartEvents> events;
};

}  // namespace benchwarden::document
