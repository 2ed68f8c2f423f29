#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/timestamp.h"
#include "findings/untold.h"
#include "quantities/measure.h"
#include "quantities/units.h"

namespace benchwarden::findings {

template <class Value>
using Told = base::Result<Value, Untold>;

/// Nitrogen in a cylinder, by its pressure and temperature.
struct GasContent {
  quantities::Mass mass;
  quantities::Volume volume;  ///< at 15 °C and 1.01325 bar
};

/// What left a cylinder since an earlier check, beyond the use that was logged.
struct GasLoss {
  std::uint64_t since_entry = 0;
  base::Instant since;
  quantities::Mass logged_use;  ///< with the rule's allowance for hoses and blowing off
  quantities::Mass loss;
  quantities::Mass expanded_uncertainty;  ///< k = 2
  std::string verdict;                    ///< as calculations::verdict_code has it
};

/// One entry about a cylinder, as it stands. What its kind does not tell is none.
struct CylinderMoment {
  std::uint64_t entry = 0;
  base::Instant at;
  std::string kind;      ///< of the entry
  bool filling = false;  ///< filled, exchanged or sent back: losses are counted anew from here
  std::optional<quantities::Quantity> pressure;     ///< gauge, in bar, as recorded
  std::optional<quantities::Quantity> temperature;  ///< in °C, as recorded
  std::string change;                               ///< of a cylinder-change: "refilled"
  std::optional<Told<GasContent>> content;
  std::optional<Told<quantities::Mass>> used;  ///< as logged, without allowance
  std::optional<Told<GasLoss>> loss;           ///< of a check, since the check before it
  /// The loss beyond uncertainty that the rule finds at this check, since the check before it or
  /// since the oldest of its window.
  std::optional<GasLoss> beyond;
};

/// In order of time.
using CylinderCourse = std::vector<CylinderMoment>;

}  // namespace benchwarden::findings
