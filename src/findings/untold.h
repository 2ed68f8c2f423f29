#pragma once

#include <string_view>

namespace benchwarden::findings {

/// Why a figure of a cylinder or of a gauge is not told: what is missing, or what keeps it.
enum class Untold {
  kOtherGas,         ///< not nitrogen: its equation of state is not kept here
  kNoWaterCapacity,  ///< of the cylinder, in the register
  kNoPressure,
  kNoTemperature,
  kOutOfRange,       ///< beyond what the equation of state holds for
  kFirstOfFilling,   ///< no earlier check since the cylinder was filled, or since its first entry
  kUseNotTold,       ///< a use between without pressure or gas space
  kNoRule,           ///< no rule in force says how well a reading is to be trusted
  kNoClass,          ///< or no range, in the register
  kNoPoints,         ///< none was compared with a reference, or none within the scale
  kAdjusted,         ///< at the last inspection: what it did before says nothing of it now
  kTooFew,           ///< inspections since the last adjustment
  kNotTowardsLimit,  ///< the errors do not run towards the limit
  kBeyondAlready,    ///< at the last inspection
  kTooFarAhead,      ///< further than the inspections reach back
};

/// "no-temperature".
std::string_view code_of(Untold untold);

}  // namespace benchwarden::findings
