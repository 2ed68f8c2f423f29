#pragma once

#include <span>

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// A volume with its standard uncertainty (k = 1).
struct UncertainVolume {
  quantities::Volume volume;
  quantities::Volume uncertainty;
};

/// Volume by weighing: (gross - tare) / density, uncertainties to first order (JCGM 100:2008,
/// 5.1.2). Buoyancy of the air (about 0.1 %) is left out. gross >= tare, density 100 to 3000 kg/m³;
/// else kOutOfRange.
struct Weighing {
  quantities::Mass gross;
  quantities::Mass tare;
  quantities::Density density;
  quantities::Mass gross_uncertainty;
  quantities::Mass tare_uncertainty;
  quantities::Density density_uncertainty;
};
Outcome<UncertainVolume> volume_by_weighing(const Weighing& weighing);

/// What was poured in since the container was last empty: the sum of the logged volumes, each with
/// its own independent uncertainty and all with one in common (a jug that reads wrong), relative.
UncertainVolume logged_sum(std::span<const double> volumes_l, double each_uncertainty_l,
                           double common_relative_uncertainty);

enum class Agreement {
  kWithinUncertainty,  ///< the difference is no larger than its expanded uncertainty, which is
                       ///< small enough to have shown one of interest
  kBeyondUncertainty,  ///< something was poured, taken or lost that the log does not hold
  kCannotTell,         ///< the uncertainties are larger than the difference of interest
};
struct Reconciled {
  quantities::Volume difference;            ///< reading - log
  quantities::Volume expanded_uncertainty;  ///< k = 2
  Agreement agreement = Agreement::kCannotTell;
  /// The mean of both, weighted by their uncertainties: the best value where they agree.
  UncertainVolume best;
};
/// Log against reading. `of_interest` is the smallest difference that matters, > 0.
Outcome<Reconciled> reconcile(const UncertainVolume& log, const UncertainVolume& reading,
                              quantities::Volume of_interest);

}  // namespace benchwarden::calculations
