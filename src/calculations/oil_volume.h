#pragma once

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// The groups of petroleum liquids that have constants of their own.
enum class OilGroup {
  kLubricatingOil,
  kCrudeOil,
  kFuelOil,
  kJetFuel,
  kTransition,  ///< between gasoline and jet fuel
  kGasoline,
};

/// Correction of volume to the base temperature and to the pressure of the atmosphere.
struct OilCorrection {
  double thermal = 1;      ///< CTL
  double compression = 1;  ///< CPL
  double alpha60_per_f = 0;
  double compressibility_per_psi = 0;  ///< Fp * 1e-5
};

/// API MPMS chapter 11.1 (2004) = ASTM D1250-04, from the 60 °F base, unrounded.
/// The density at 60 °F must lie in the range of its group, the temperature between -58 and
/// 302 °F, the pressure between 0 and 1500 psi above the atmosphere; else kOutOfRange
/// (density_60f_kg_m3, temperature_f, gauge_pressure_psi).
Outcome<OilCorrection> oil_correction_60f(OilGroup group, quantities::Density density_60f,
                                          double temperature_f, double gauge_pressure_psi);

/// The same from the 15 °C base, at the pressure of the atmosphere: the factor VCF by which a
/// volume at `temperature` is multiplied to get the volume at 15 °C. Finds the density at 60 °F
/// that belongs to the one at 15 °C. -50 to 150 °C;
/// else kOutOfRange (temperature_c, density_60f_kg_m3). Waste oil that holds water or solvent is
/// outside the standard.
Outcome<double> oil_correction_15c(OilGroup group, quantities::Density density_15c,
                                   quantities::Temperature temperature);
/// The density at 15 °C of an oil that has `observed` at `temperature`: the inverse.
Outcome<quantities::Density> oil_density_15c(OilGroup group, quantities::Density observed,
                                             quantities::Temperature temperature);

/// A measured volume of oil, with standard uncertainties (k = 1) of what was measured.
struct MeasuredOil {
  quantities::Volume volume;
  quantities::Density density_15c;
  quantities::Temperature temperature;
  quantities::Volume volume_uncertainty;
  quantities::Density density_uncertainty;
  quantities::Temperature temperature_uncertainty;
};
struct OilMass {
  double factor = 1;  ///< VCF
  quantities::Volume volume_15c;
  quantities::Mass mass;
  quantities::Volume volume_expanded_uncertainty;  ///< k = 2, of volume_15c
  quantities::Mass mass_expanded_uncertainty;      ///< k = 2
};
/// Volume at 15 °C and mass, with the uncertainties propagated to first order (JCGM 100:2008,
/// 5.1.2); that of the standard's own factor, at most 0.05 to 0.35 % by its clause on precision
/// (from memory), is not in it.
Outcome<OilMass> oil_mass(OilGroup group, const MeasuredOil& oil);

}  // namespace benchwarden::calculations
