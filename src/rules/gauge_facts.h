#pragma once

#include <optional>
#include <vector>

#include "calculations/gauge_class.h"
#include "rules/scene.h"

namespace benchwarden::rules {

/// A gauge as the register describes it: its class and its scale in bar.
struct GaugeFacts {
  const calculations::GaugeClass* gauge_class = nullptr;  ///< never nullptr
  calculations::GaugeScale scale;
};
/// None without class or range. A scale without a low end begins at 0.
std::optional<GaugeFacts> gauge_of(const entries::Fields& gauge);

/// One point of an inspection, in bar.
struct GaugePoint {
  double reference = 0;
  double as_found = 0;
  std::optional<double> as_left;
};
/// In the order they were entered; none of an inspection without points.
std::vector<GaugePoint> points_of(const tallies::Record& inspection);

/// Whether an error is no larger than its limit, to either side.
bool is_within(double error, double limit);

/// The point whose error as found takes most of its limit.
struct WorstPoint {
  double error = 0;  ///< with its sign
  double limit = 0;  ///< of the class, at that point
  double reference = 0;
};
/// None without points within the scale.
std::optional<WorstPoint> worst_point(const GaugeFacts& gauge,
                                      const std::vector<GaugePoint>& points);

}  // namespace benchwarden::rules
