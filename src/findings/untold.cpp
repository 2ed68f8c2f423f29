#include "findings/untold.h"

namespace benchwarden::findings {

std::string_view code_of(Untold untold) {
  switch (untold) {
    case Untold::kOtherGas:
      return "other-gas";
    case Untold::kNoWaterCapacity:
      return "no-water-capacity";
    case Untold::kNoPressure:
      return "no-pressure";
    case Untold::kNoTemperature:
      return "no-temperature";
    case Untold::kOutOfRange:
      return "out-of-range";
    case Untold::kFirstOfFilling:
      return "first-of-filling";
    case Untold::kUseNotTold:
      return "use-not-told";
    case Untold::kNoRule:
      return "no-rule";
    case Untold::kNoClass:
      return "no-class";
    case Untold::kNoPoints:
      return "no-points";
    case Untold::kAdjusted:
      return "adjusted";
    case Untold::kTooFew:
      return "too-few";
    case Untold::kNotTowardsLimit:
      return "not-towards-limit";
    case Untold::kBeyondAlready:
      return "beyond-already";
    case Untold::kTooFarAhead:
      break;
  }
  return "too-far-ahead";
}

}  // namespace benchwarden::findings
