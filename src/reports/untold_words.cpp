#include "reports/untold_words.h"

namespace benchwarden::reports {
namespace {

using findings::Untold;

Key key_of(Untold untold) {
  switch (untold) {
    case Untold::kOtherGas:
      return "untold.other_gas";
    case Untold::kNoWaterCapacity:
      return "untold.no_water_capacity";
    case Untold::kNoPressure:
      return "untold.no_pressure";
    case Untold::kNoTemperature:
      return "untold.no_temperature";
    case Untold::kOutOfRange:
      return "untold.out_of_range";
    case Untold::kFirstOfFilling:
      return "untold.first_of_filling";
    case Untold::kUseNotTold:
      return "untold.use_not_told";
    case Untold::kNoRule:
      return "untold.no_rule";
    case Untold::kNoClass:
      return "untold.no_class";
    case Untold::kNoPoints:
      return "untold.no_points";
    case Untold::kAdjusted:
      return "untold.adjusted";
    case Untold::kTooFew:
      return "untold.too_few";
    case Untold::kNotTowardsLimit:
      return "untold.not_towards_limit";
    case Untold::kBeyondAlready:
      return "untold.beyond_already";
    case Untold::kTooFarAhead:
      break;
  }
  return "untold.too_far_ahead";
}

}  // namespace

const std::string& untold_words(Untold untold, const ReportWording& wording) {
  return wording.text(key_of(untold));
}

const std::string& verdict_words(std::string_view verdict, const ReportWording& wording) {
  if (verdict == "loss-beyond-uncertainty") return wording.text("verdict.loss_beyond_uncertainty");
  if (verdict == "no-evidence-of-loss") return wording.text("verdict.no_evidence_of_loss");
  return wording.text("verdict.cannot_tell");
}

}  // namespace benchwarden::reports
