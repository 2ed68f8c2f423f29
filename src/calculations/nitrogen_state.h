#pragma once

#include <optional>

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

/// Nitrogen at one temperature and absolute pressure.
struct NitrogenState {
  quantities::Density density;
  double compressibility = 1;  ///< Z = p / (rho R T)
};

/// Density of nitrogen by the reference equation of state: R. Span, E. W. Lemmon, R. T Jacobsen,
/// W. Wagner, A. Yokozeki, "A Reference Equation of State for the Thermodynamic Properties of
/// Nitrogen for Temperatures from 63.151 to 1000 K and Pressures to 2200 MPa", J. Phys. Chem. Ref.
/// Data 29 (2000) 1361. Its 32 polynomial and exponential terms; the four terms that act near the
/// critical point vanish in the range accepted here.
/// 253.15 K <= T <= 323.15 K, 0 <= p <= 35 MPa absolute; else kOutOfRange (temperature_k,
/// absolute_pressure_mpa).
Outcome<NitrogenState> nitrogen_state(quantities::Temperature temperature,
                                      quantities::AbsolutePressure pressure);

/// The pressure that belongs to a density, by the same equation. For the inverse and for tests of
/// the equation itself, so without a check of the range.
quantities::AbsolutePressure nitrogen_pressure(quantities::Temperature temperature,
                                               quantities::Density density);

/// The relative uncertainty that the equation claims for its densities (k = 2 is not said): 0.01 %
/// for 270 to 350 K below 12 MPa, 0.02 % for 240 to 523 K below 30 MPa, nothing known here above
/// that. Source: NIST Chemistry WebBook, fluid page of nitrogen.
std::optional<double> nitrogen_density_uncertainty(quantities::Temperature temperature,
                                                   quantities::AbsolutePressure pressure);

}  // namespace benchwarden::calculations
