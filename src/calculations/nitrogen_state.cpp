#include "calculations/nitrogen_state.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

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

constexpr std::size_t kDeltaMax = 9;        // the highest power of delta
constexpr std::size_t kExponentialMax = 4;  // of delta within an exponential
constexpr std::size_t kTauMax = 16;         // of tau, whose powers go by eighths

/// One term of the residual Helmholtz energy: n delta^d tau^t exp(-delta^l), without the
/// exponential where l is 0.
struct Term {
  double n;
  std::size_t d;
  double t;
  std::size_t l;
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

/// base^0, base^1 …
template <std::size_t N>
std::array<double, N> powers(double base) {
  std::array<double, N> found{1};
  for (std::size_t i = 1; i < N; ++i) found[i] = found[i - 1] * base;
  return found;
}

/// The equation at one temperature: its powers of tau, which do not change while a density is
/// sought, are taken once.
class Isotherm {
 public:
  explicit Isotherm(double kelvin) : scale_(kCriticalDensity * kGasConstant * kelvin) {
    constexpr std::size_t kEighths = 8;
    const double tau = kCriticalTemperature / kelvin;
    const auto whole = powers<kTauMax + 1>(tau);
    const auto parts = powers<kEighths>(std::sqrt(std::sqrt(std::sqrt(tau))));
    for (const Term& term : kTerms) {
      const auto eighths = static_cast<std::size_t>(term.t * kEighths);
      factors_[term.l][term.d] += term.n * whole[eighths / kEighths] * parts[eighths % kEighths];
    }
  }

  [[nodiscard]] double pressure(double delta) const {
    return scale_ * delta * (1 + residual(delta).value);
  }
  [[nodiscard]] double delta_of(double pressure) const;

 private:
  [[nodiscard]] Residual residual(double delta) const;

  double scale_;  ///< Pa, the pressure of an ideal gas of delta 1
  /// n tau^t of the terms, summed by l and d.
  std::array<std::array<double, kDeltaMax + 1>, kExponentialMax + 1> factors_{};
};

Residual Isotherm::residual(double delta) const {
  const auto delta_to = powers<kDeltaMax + 1>(delta);
  Residual sum;
  for (std::size_t l = 0; l <= kExponentialMax; ++l) {
    // g = n delta^d tau^t e^(-delta^l); delta dg/ddelta = g (d - l delta^l)
    const double power = l == 0 ? 0 : delta_to[l];
    const double fading = l == 0 ? 1 : std::exp(-power);
    const auto exponent = static_cast<double>(l);
    Residual of_this;
    for (std::size_t d = 1; d <= kDeltaMax; ++d) {
      const double g = factors_[l][d] * delta_to[d];
      const double slope = static_cast<double>(d) - exponent * power;
      of_this.value += g * slope;
      of_this.derivative += g * (slope * slope - exponent * exponent * power);
    }
    sum.value += fading * of_this.value;
    sum.derivative += fading * of_this.derivative;
  }
  sum.derivative /= delta;
  return sum;
}

/// Density where the equation gives the wanted pressure, by Newton's method from that of an ideal
/// gas. The pressure rises steadily with the density between half and two and a half times that.
double Isotherm::delta_of(double pressure) const {
  constexpr int kStepsMax = 20;
  constexpr double kNear = 1e-9;  // each step squares what is missing: the next would be nothing
  const double ideal = pressure / scale_;
  double delta = ideal;
  for (int i = 0; i < kStepsMax; ++i) {
    const Residual r = residual(delta);
    const double missing = delta * (1 + r.value) - ideal;
    const double step = missing / (1 + r.value + delta * r.derivative);
    delta = std::clamp(delta - step, 0.5 * ideal, 2.5 * ideal);
    if (std::abs(step) < kNear * delta) break;
  }
  return delta;
}

}  // namespace

AbsolutePressure nitrogen_pressure(Temperature temperature, Density density) {
  const double molar = quantities::kilograms_per_cubic_metre_of(density) / kMolarMass;
  const double kelvin = quantities::kelvin_of(temperature);
  if (molar <= 0) return AbsolutePressure(0);
  return AbsolutePressure(Isotherm(kelvin).pressure(molar / kCriticalDensity));
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
  const double molar = kCriticalDensity * Isotherm(kelvin).delta_of(pressure.si());
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
