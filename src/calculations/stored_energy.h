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
/// Brode's energy (P - Pa) V / (k - 1): D. A. Crowl, Understanding Explosions, appendix B. More
/// than the isentropic energy, but no upper bound: the isothermal energy is more at high pressures.
/// Same range.
Outcome<quantities::Energy> brode_energy(quantities::Volume volume,
                                         quantities::AbsolutePressure pressure,
                                         quantities::AbsolutePressure atmosphere);
/// What an ideal gas gives off when it takes up all the heat it can from around it while it
/// expands, P V ln(P / Pa): general thermodynamics, and the most of the three above about 9.4 times
/// Pa. Same range.
Outcome<quantities::Energy> isothermal_energy(quantities::Volume volume,
                                              quantities::AbsolutePressure pressure,
                                              quantities::AbsolutePressure atmosphere);

}  // namespace benchwarden::calculations
