#pragma once

#include <cstddef>
#include <span>

#include "calculations/refusal.h"

namespace benchwarden::calculations {

/// A straight line through points, by least squares.
struct LineFit {
  double intercept = 0;
  double slope = 0;
  double intercept_sd = 0;
  double slope_sd = 0;
  double residual_sd = 0;
  std::size_t count = 0;
  double mean_x = 0;
  double squares_x = 0;  ///< sum of (x - mean_x)^2
  [[nodiscard]] double degrees_of_freedom() const { return static_cast<double>(count) - 2; }
  [[nodiscard]] double at(double x) const { return intercept + slope * x; }
};

/// Ordinary least squares with centred x and compensated sums. Checked against NIST StRD (Norris)
/// and R (cars). Three points or more; kTooFew, kUnequalLists, kNoSolution when all x are equal.
Outcome<LineFit> fit_line(std::span<const double> x, std::span<const double> y);

struct Interval {
  double low = 0;
  double high = 0;
};
/// Where the line itself runs at x, with probability `level` (two-sided, 0 < level < 1).
Interval confidence_interval(const LineFit& fit, double x, double level);
/// Where the next observation at x falls, with probability `level`.
Interval prediction_interval(const LineFit& fit, double x, double level);

}  // namespace benchwarden::calculations
