#include "calculations/nitrogen_state.h"

#include <array>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <utility>

namespace benchwarden::calculations {
namespace {

using quantities::AbsolutePressure;
using quantities::Density;
using quantities::Temperature;

// All from Span et al. (2000). The equation's own gas constant belongs to its coefficients.
constexpr double kGasConstant = 8.31451;          // J/(mol K)
constexpr double kMolarMass = 0.02801348;         // kg/mol
constexpr double kCriticalTemperature = 126.192;  // K
constexpr double kCriticalDensity = 11183.9;      // mol/m³

/// One term of the residual Helmholtz energy: n delta^d tau^t exp(-delta^l), without the
/// exponential where l is 0.
struct Term {
  double n;
  int d;
  double t;
  int l;
};
// clang-format off
constexpr std::array<Term, 32> kTerms{{
    {0.924803575275, 1, 0.25, 0},
    {-0.492448489428, 1, 0.875, 0},
    {0.661883336938, 2, 0.5, 0},
    {-1.92902649201, 2, 0.875, 0},
    {-0.0622469309629, 3, 0.375, 0},
    {0.349943957581, 3, 0.75, 0},
    {0.564857472498, 1, 0.5, 1},
    {-1.61720005987, 1, 0.75, 1},
    {-0.481395031883, 1, 2, 1},
    {0.421150636384, 3, 1.25, 1},
    {-0.0161962230825, 3, 3.5, 1},
    {0.172100994165, 4, 1, 1},
    {0.00735448924933, 6, 0.5, 1},
    {0.0168077305479, 6, 3, 1},
    {-0.00107626664179, 7, 0, 1},
    {-0.0137318088513, 7, 2.75, 1},
    {0.000635466899859, 8, 0.75, 1},
    {0.00304432279419, 8, 2.5, 1},
    {-0.0435762336045, 1, 4, 2},
    {-0.0723174889316, 2, 6, 2},
    {0.0389644315272, 3, 6, 2},
    {-0.021220136391, 4, 3, 2},
    {0.00408822981509, 5, 3, 2},
    {-5.51990017984e-05, 8, 6, 2},
    {-0.0462016716479, 4, 16, 3},
    {-0.00300311716011, 5, 11, 3},
    {0.0368825891208, 5, 15, 3},
    {-0.0025585684622, 8, 12, 3},
    {0.00896915264558, 3, 12, 4},
    {-0.0044151337035, 5, 7, 4},
    {0.00133722924858, 6, 4, 4},
    {0.000264832491957, 9, 16, 4},
}};
// clang-format on

/// How the residual terms press: delta d(alpha_r)/d(delta), and its derivative by delta.
struct Residual {
  double value = 0;
  double derivative = 0;
};

Residual residual(double tau, double delta) {
  Residual sum;
  for (const Term& term : kTerms) {
    // g = n delta^d tau^t e^(-delta^l); delta dg/ddelta = g (d - l delta^l)
    const double power = term.l == 0 ? 0 : std::pow(delta, term.l);
    const double g = term.n * std::pow(delta, term.d) * std::pow(tau, term.t) * std::exp(-power);
    const double slope = term.d - term.l * power;
    sum.value += g * slope;
    sum.derivative += g * (slope * slope - term.l * term.l * power) / delta;
  }
  return sum;
}

/// Density where the equation gives the wanted pressure. The pressure rises steadily with the
/// density between half and two and a half times that of an ideal gas.
double solve_delta(double tau, double pressure, double ideal_delta) {
  const double scale = kCriticalDensity * kGasConstant * kCriticalTemperature / tau;
  const auto equation = [&](double delta) {
    const Residual r = residual(tau, delta);
    return std::make_pair(scale * delta * (1 + r.value) - pressure,
                          scale * (1 + r.value + delta * r.derivative));
  };
  constexpr int kBits = 50;
  std::uintmax_t rounds = 100;
  return boost::math::tools::newton_raphson_iterate(equation, ideal_delta, 0.5 * ideal_delta,
                                                    2.5 * ideal_delta, kBits, rounds);
}

}  // namespace

AbsolutePressure nitrogen_pressure(Temperature temperature, Density density) {
  const double molar = quantities::kilograms_per_cubic_metre_of(density) / kMolarMass;
  const double kelvin = quantities::kelvin_of(temperature);
  if (molar <= 0) return AbsolutePressure(0);
  const Residual r = residual(kCriticalTemperature / kelvin, molar / kCriticalDensity);
  return AbsolutePressure(molar * kGasConstant * kelvin * (1 + r.value));
}

Outcome<NitrogenState> nitrogen_state(Temperature temperature, AbsolutePressure pressure) {
  constexpr double kPascalsPerMegapascal = 1e6;
  const double kelvin = quantities::kelvin_of(temperature);
  // -20 °C are 253.15 K, but not to the last bit of a sum in floating point.
  const double to_compare = std::round(kelvin * 1e9) / 1e9;
  if (const auto fits = within("temperature_k", to_compare, 253.15, 323.15); !fits) {
    return fits.error();
  }
  if (const auto fits =
          within("absolute_pressure_mpa", pressure.si() / kPascalsPerMegapascal, 0, 35);
      !fits) {
    return fits.error();
  }
  const double ideal = pressure.si() / (kGasConstant * kelvin);  // mol/m³
  if (ideal / kCriticalDensity < 1e-12) {                        // an ideal gas, or none at all
    return NitrogenState{Density(ideal * kMolarMass), 1};
  }
  const double molar = kCriticalDensity * solve_delta(kCriticalTemperature / kelvin, pressure.si(),
                                                      ideal / kCriticalDensity);
  return NitrogenState{Density(molar * kMolarMass), ideal / molar};
}

std::optional<double> nitrogen_density_uncertainty(Temperature temperature,
                                                   AbsolutePressure pressure) {
  const double kelvin = quantities::kelvin_of(temperature);
  const double megapascals = pressure.si() / 1e6;
  if (kelvin >= 270 && kelvin <= 350 && megapascals < 12) return 1e-4;
  if (kelvin >= 240 && kelvin <= 523 && megapascals < 30) return 2e-4;
  return std::nullopt;
}

}  // namespace benchwarden::calculations
