#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace benchwarden::document {

struct Tick {
  std::int64_t at = 0;
  std::string label;
};
struct ChartScale {
  std::int64_t low = 0;
  std::int64_t high = 1;  ///< > low
  std::vector<Tick> ticks;
};

/// From a round number at or below `low` to one at or above `high`, in thousandths; labels have the
/// places their step needs and a true minus sign. low <= high.
ChartScale value_scale(std::int64_t low, std::int64_t high);

/// Local time in ms, a little wider than from `low` to `high`; ticks at the beginning of days or
/// months, at most eight. low <= high.
ChartScale time_scale(std::int64_t low, std::int64_t high);

}  // namespace benchwarden::document
