#pragma once

#include <string_view>

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// One check of a cylinder, with standard uncertainties (k = 1) of what was read.
struct CylinderReading {
  quantities::AbsolutePressure pressure;
  quantities::Temperature temperature;
  quantities::AbsolutePressure pressure_uncertainty;
  quantities::Temperature temperature_uncertainty;
};

/// Standard uncertainty of a gauge reading: the class as half width of a rectangular distribution
/// over the span, and the resolution read to, as another (JCGM 100:2008, 4.3.7). Class in percent
/// of span.
quantities::AbsolutePressure gauge_reading_uncertainty(double class_percent,
                                                       quantities::GaugePressure span,
                                                       quantities::GaugePressure resolution);

enum class LossVerdict {
  kLossBeyondUncertainty,  ///< more left than the expanded uncertainty explains
  kNoEvidenceOfLoss,       ///< a loss of the size of interest would have shown, and did not
  kCannotTell,             ///< the uncertainty is larger than the loss of interest, or gas appeared
};
/// "loss-beyond-uncertainty", "no-evidence-of-loss", "cannot-tell".
std::string_view verdict_code(LossVerdict verdict);

/// What one check tells a cylinder holds, with its standard uncertainty.
struct UncertainContent {
  quantities::Mass mass;
  quantities::Mass uncertainty;
};
/// Range of nitrogen_state.
Outcome<UncertainContent> uncertain_content(quantities::Volume water_capacity,
                                            const CylinderReading& reading);

struct NitrogenLoss {
  quantities::Mass first;
  quantities::Mass second;
  quantities::Mass loss;                  ///< first - second - logged use
  quantities::Mass expanded_uncertainty;  ///< k = 2
  LossVerdict verdict = LossVerdict::kCannotTell;
};

/// What left a cylinder between two checks beyond the use that was logged. The uncertainty is
/// propagated to first order (JCGM 100:2008, 5.1.2) from both pressures and temperatures, taken as
/// independent, which is the cautious side where one gauge read both; the water capacity is common
/// to both and scales the difference only; the equation of state's own uncertainty is left out, as
/// it is common too and far smaller. `capacity_uncertainty` is relative, k = 1.
/// Range of nitrogen_state.
Outcome<NitrogenLoss> nitrogen_loss(quantities::Volume water_capacity, double capacity_uncertainty,
                                    const CylinderReading& first, const CylinderReading& second,
                                    quantities::Mass logged_use, quantities::Mass loss_of_interest);
/// The same of contents that are known already.
NitrogenLoss nitrogen_loss(const UncertainContent& first, const UncertainContent& second,
                           double capacity_uncertainty, quantities::Mass logged_use,
                           quantities::Mass loss_of_interest);

}  // namespace benchwarden::calculations
