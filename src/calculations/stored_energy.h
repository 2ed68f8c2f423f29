#pragma once

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// Ratio of the heat capacities of nitrogen and air as ideal gases near room temperature.
constexpr double kHeatCapacityRatio = 1.4;

/// What a compressed gas gives off when it expands to the atmosphere without heat: P V / (k - 1) *
/// [1 - (Pa / P)^((k - 1) / k)], k = 1.4. The form of ASME PCC-2 article 501. For an ideal gas;
/// above about 100 bar it gives more than nitrogen really holds (a quarter more at 200 bar,
/// computed), which is the cautious side. 0 < atmosphere <= pressure; volume >= 0; else
/// kOutOfRange.
Outcome<quantities::Energy> isentropic_energy(quantities::Volume volume,
                                              quantities::AbsolutePressure pressure,
                                              quantities::AbsolutePressure atmosphere);
/// Brode's energy (P - Pa) V / (k - 1), an upper estimate: D. A. Crowl, Understanding Explosions,
/// appendix B. Same range.
Outcome<quantities::Energy> brode_energy(quantities::Volume volume,
                                         quantities::AbsolutePressure pressure,
                                         quantities::AbsolutePressure atmosphere);

}  // namespace benchwarden::calculations
