#pragma once

#include <optional>
#include <span>

#include "calculations/line_fit.h"

namespace benchwarden::calculations {

/// How the error of a gauge moves from inspection to inspection, and when it leaves its class.
/// Years from the first inspection of the series. An adjustment starts a new series.
struct GaugeDrift {
  LineFit line;                    ///< error over years
  double observed_years = 0;       ///< from the first inspection to the last
  std::optional<double> leaves;    ///< the line itself meets the limit; none: it does not, ahead
  std::optional<double> earliest;  ///< the two-sided 95 % prediction bound meets it
  /// Whether `leaves` lies further beyond the last inspection than the series is long: then it is
  /// a guess.
  bool far_ahead = false;
};
/// Four inspections or more (kTooFew); limit > 0, the error allowed to either side (kOutOfRange).
/// Each side counts: the line and both prediction bounds are held against +limit and -limit, from
/// the last inspection on. What is beyond by then is beyond now.
Outcome<GaugeDrift> gauge_drift(std::span<const double> years, std::span<const double> errors,
                                double limit);

}  // namespace benchwarden::calculations
