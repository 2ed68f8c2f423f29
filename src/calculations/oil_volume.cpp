#include "calculations/oil_volume.h"

#include <array>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

using quantities::Density;
using quantities::Mass;
using quantities::Temperature;
using quantities::Volume;

/// Constants of clause 11.1.5; densities at 60 °F in kg/m³.
struct GroupConstants {
  double k0, k1, k2, density_low, density_high;
};
GroupConstants constants_of(OilGroup group) {
  switch (group) {
    case OilGroup::kLubricatingOil:
      return {0, 0.34878, 0, 800.9, 1163.5};
    case OilGroup::kCrudeOil:
      return {341.0957, 0, 0, 610.6, 1163.5};
    case OilGroup::kFuelOil:
      return {103.8720, 0.2701, 0, 838.3127, 1163.5};
    case OilGroup::kJetFuel:
      return {330.3010, 0, 0, 787.5195, 838.3127};
    case OilGroup::kTransition:
      return {1489.0670, 0, -0.00186840, 770.3520, 787.5195};
    case OilGroup::kGasoline:
      break;
  }
  return {192.4571, 0.2438, 0, 610.6, 770.3520};
}

constexpr double kBaseFahrenheit = 60.0068749;  // 60 °F of IPTS-68
constexpr double kDelta60 = 0.01374979547;      // its distance, as the standard gives it

double fahrenheit_of(Temperature temperature) {
  return quantities::celsius_of(temperature) * 1.8 + 32;
}

/// A reading on the scale of 1990 (ITS-90) turned into that of 1968, which the constants rest on.
double on_scale_of_1968(double fahrenheit) {
  constexpr std::array kCoefficients = {-0.148759, -0.267408, 1.080760, 1.269056,
                                        -4.089591, -1.871251, 7.438081, -3.536296};
  const double celsius = (fahrenheit - 32) / 1.8;
  const double tau = celsius / 630;
  double shift = 0;
  double power = 1;
  for (const double a : kCoefficients) shift += a * (power *= tau);
  return 1.8 * (celsius - shift) + 32;
}

/// Density at 60 °F of the old scale: that of the new one, shifted by 0.0069 °F.
double on_base_of_1968(const GroupConstants& k, double density) {
  const double a = kDelta60 / 2 * ((k.k0 / density + k.k1) / density + k.k2);
  const double b = (2 * k.k0 + k.k1 * density) / (k.k0 + (k.k1 + k.k2 * density) * density);
  return density * (1 + (std::exp(a * (1 + 0.8 * a)) - 1) / (1 + a * (1 + 1.6 * a) * b));
}

/// The factors without a check of the range.
OilCorrection correction(OilGroup group, double density_60f, double temperature_f, double psi) {
  const GroupConstants k = constants_of(group);
  const double t = on_scale_of_1968(temperature_f);
  const double density = on_base_of_1968(k, density_60f);
  OilCorrection result;
  result.alpha60_per_f = (k.k0 / density + k.k1) / density + k.k2;
  const double away = t - kBaseFahrenheit;
  const double alpha = result.alpha60_per_f;
  result.thermal = std::exp(-alpha * away * (1 + 0.8 * alpha * (away + kDelta60)));
  const double fp = std::exp(-1.9947 + 0.00013427 * t + (793920 + 2326 * t) / (density * density));
  result.compressibility_per_psi = fp * 1e-5;
  result.compression = 1 / (1 - result.compressibility_per_psi * psi);
  return result;
}

double thermal_at(OilGroup group, double density_60f, Temperature temperature) {
  return correction(group, density_60f, fahrenheit_of(temperature), 0).thermal;
}

/// The density that an oil has at a temperature, from that at 60 °F. Rises with it in every group.
double density_at(OilGroup group, double density_60f, Temperature temperature) {
  return density_60f * thermal_at(group, density_60f, temperature);
}

/// The inverse, by bracketing. A tenth beyond the range of the group the search ends, so that what
/// is uncertain at a border can be moved; what is outside the range itself the caller refuses.
double density_60f_of(OilGroup group, double density, Temperature temperature) {
  const GroupConstants k = constants_of(group);
  const double low = 0.9 * k.density_low;
  const double high = 1.1 * k.density_high;
  const auto missing = [&](double density_60f) {
    return density_at(group, density_60f, temperature) - density;
  };
  if (missing(low) >= 0) return low;
  if (missing(high) <= 0) return high;
  std::uintmax_t rounds = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      missing, low, high, boost::math::tools::eps_tolerance<double>(51), rounds);
  return (bracket.first + bracket.second) / 2;
}

base::Status<Refusal> check_density(OilGroup group, double density_60f) {
  const GroupConstants k = constants_of(group);
  return within("density_60f_kg_m3", density_60f, k.density_low, k.density_high);
}

/// A density at a temperature, held to the range of its group there. Gives that at 60 °F.
Outcome<double> checked_density_60f(OilGroup group, const std::string& name, double density,
                                    Temperature temperature) {
  const GroupConstants k = constants_of(group);
  const double density_60f = density_60f_of(group, density, temperature);
  constexpr double kRounding = 1e-12;
  if (density_60f >= k.density_low * (1 - kRounding) &&
      density_60f <= k.density_high * (1 + kRounding)) {
    return density_60f;
  }
  return Refusal{RefusalCode::kOutOfRange, name, density,
                 density_at(group, k.density_low, temperature),
                 density_at(group, k.density_high, temperature)};
}

base::Status<Refusal> check_temperature(Temperature temperature) {
  // -50 °C are 223.15 K, but not to the last bit of a sum in floating point.
  const double celsius = std::round(quantities::celsius_of(temperature) * 1e9) / 1e9;
  return within("temperature_c", celsius, -50, 150);
}

/// How far a result moves when one input moves by its uncertainty: half the difference of both
/// sides. The range was checked in the middle; the sides may lie a little outside.
template <class F>
double moved_by(const F& function, double step) {
  return std::abs(function(step) - function(-step)) / 2;
}

double factor_unchecked(OilGroup group, double density_15c, Temperature temperature) {
  const double density_60f = density_60f_of(group, density_15c, quantities::celsius(15));
  return thermal_at(group, density_60f, temperature) /
         thermal_at(group, density_60f, quantities::celsius(15));
}

}  // namespace

Outcome<OilCorrection> oil_correction_60f(OilGroup group, Density density_60f, double temperature_f,
                                          double gauge_pressure_psi) {
  if (const auto fits = check_density(group, density_60f.si()); !fits) return fits.error();
  if (const auto fits = within("temperature_f", temperature_f, -58, 302); !fits) {
    return fits.error();
  }
  if (const auto fits = within("gauge_pressure_psi", gauge_pressure_psi, 0, 1500); !fits) {
    return fits.error();
  }
  return correction(group, density_60f.si(), temperature_f, gauge_pressure_psi);
}

Outcome<double> oil_correction_15c(OilGroup group, Density density_15c, Temperature temperature) {
  if (const auto fits = check_temperature(temperature); !fits) return fits.error();
  const auto density_60f =
      checked_density_60f(group, "density_15c_kg_m3", density_15c.si(), quantities::celsius(15));
  if (!density_60f) return density_60f.error();
  return factor_unchecked(group, density_15c.si(), temperature);
}

Outcome<Density> oil_density_15c(OilGroup group, Density observed, Temperature temperature) {
  if (const auto fits = check_temperature(temperature); !fits) return fits.error();
  const auto density_60f = checked_density_60f(group, "density_kg_m3", observed.si(), temperature);
  if (!density_60f) return density_60f.error();
  return Density(density_at(group, *density_60f, quantities::celsius(15)));
}

Outcome<OilMass> oil_mass(OilGroup group, const MeasuredOil& oil) {
  const auto factor = oil_correction_15c(group, oil.density_15c, oil.temperature);
  if (!factor) return factor.error();
  OilMass result;
  result.factor = *factor;
  result.volume_15c = oil.volume * *factor;
  result.mass = oil.density_15c * result.volume_15c;

  const double density = oil.density_15c.si();
  const auto by_temperature = [&](double step) {
    return factor_unchecked(group, density, oil.temperature + Temperature(step));
  };
  const auto by_density = [&](double step) {
    return factor_unchecked(group, density + step, oil.temperature);
  };
  const auto mass_factor_by_density = [&](double step) {
    return (density + step) * factor_unchecked(group, density + step, oil.temperature);
  };
  const double u_temperature =
      oil.volume.si() * moved_by(by_temperature, oil.temperature_uncertainty.si());
  const double u_volume = oil.volume_uncertainty.si() * *factor;
  const double u_density = oil.volume.si() * moved_by(by_density, oil.density_uncertainty.si());
  const double u_mass_density =
      oil.volume.si() * moved_by(mass_factor_by_density, oil.density_uncertainty.si());
  result.volume_expanded_uncertainty =
      Volume(kCoverageFactor * combined(std::array{u_volume, u_temperature, u_density}));
  result.mass_expanded_uncertainty =
      Mass(kCoverageFactor *
           combined(std::array{u_volume * density, u_temperature * density, u_mass_density}));
  return result;
}

}  // namespace benchwarden::calculations
