#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/civil_date.h"
#include "base/result.h"
#include "base/timestamp.h"
#include "findings/untold.h"

namespace benchwarden::findings {

/// One pressure at which a gauge was compared, in bar.
struct GaugeError {
  double reference = 0;
  double as_found = 0;
  std::optional<double> as_left;
  std::optional<double> limit;  ///< of the class at that point; none without a class
  bool beyond = false;          ///< the error as found is larger than the limit
};

/// One inspection as it stands; `points` in the order they were entered.
struct GaugeMoment {
  std::uint64_t entry = 0;
  base::Instant at;
  bool adjusted = false;
  std::vector<GaugeError> points;
};

/// The straight line through the errors, from the first inspection to the day it meets the limit.
struct ErrorLine {
  base::CivilDate first;
  double first_error = 0;
  double last_error = 0;
};

/// When the line of the errors as found meets the limit.
struct GaugeForecast {
  double reference = 0;  ///< bar: the pressure whose error takes most of its limit
  double error = 0;      ///< bar, with its sign, at the last inspection
  double limit = 0;      ///< bar, to either side
  std::vector<std::uint64_t> inspections;
  base::CivilDate leaves;
  ErrorLine line;
};

struct GaugeCourse {
  std::vector<GaugeMoment> moments;  ///< in order of time
  base::Result<GaugeForecast, Untold> forecast = Untold::kNoPoints;
};

}  // namespace benchwarden::findings
