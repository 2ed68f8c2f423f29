#pragma once

#include "quantities/quantity.h"

namespace benchwarden::quantities {

/// A measured amount of one dimension, in floating point and SI base units. For what is computed
/// from readings; what the book counts is a Whole. Only equal tags add and compare, so a pressure
/// cannot be added to a volume, nor a gauge pressure to an absolute one.
template <class Tag>
class Measure {
 public:
  constexpr Measure() = default;
  explicit constexpr Measure(double si) : si_(si) {}
  [[nodiscard]] constexpr double si() const { return si_; }

  friend constexpr auto operator<=>(const Measure&, const Measure&) = default;
  friend constexpr Measure operator+(Measure a, Measure b) { return Measure(a.si_ + b.si_); }
  friend constexpr Measure operator-(Measure a, Measure b) { return Measure(a.si_ - b.si_); }
  friend constexpr Measure operator*(Measure a, double factor) { return Measure(a.si_ * factor); }
  friend constexpr Measure operator*(double factor, Measure a) { return Measure(a.si_ * factor); }
  friend constexpr Measure operator/(Measure a, double divisor) { return Measure(a.si_ / divisor); }
  friend constexpr double operator/(Measure a, Measure b) { return a.si_ / b.si_; }

 private:
  double si_ = 0;
};

using Volume = Measure<struct VolumeTag>;                      // m³
using Mass = Measure<struct MassTag>;                          // kg
using Density = Measure<struct DensityTag>;                    // kg/m³
using GaugePressure = Measure<struct GaugePressureTag>;        // Pa above the atmosphere
using AbsolutePressure = Measure<struct AbsolutePressureTag>;  // Pa
using Temperature = Measure<struct TemperatureTag>;            // K; also a difference of two
using Length = Measure<struct LengthTag>;                      // m
using Energy = Measure<struct EnergyTag>;                      // J

constexpr Volume cubic_metres(double value) { return Volume(value); }
constexpr Volume litres(double value) { return Volume(value / 1e3); }
constexpr double cubic_metres_of(Volume volume) { return volume.si(); }
constexpr double litres_of(Volume volume) { return volume.si() * 1e3; }

constexpr Mass kilograms(double value) { return Mass(value); }
constexpr double kilograms_of(Mass mass) { return mass.si(); }

constexpr Density kilograms_per_cubic_metre(double value) { return Density(value); }
constexpr double kilograms_per_cubic_metre_of(Density density) { return density.si(); }

constexpr GaugePressure bar_gauge(double value) { return GaugePressure(value * 1e5); }
constexpr double bar_gauge_of(GaugePressure pressure) { return pressure.si() / 1e5; }
constexpr AbsolutePressure bar_absolute(double value) { return AbsolutePressure(value * 1e5); }
constexpr AbsolutePressure megapascals_absolute(double value) {
  return AbsolutePressure(value * 1e6);
}
constexpr double bar_absolute_of(AbsolutePressure pressure) { return pressure.si() / 1e5; }
/// What a gauge shows, with the atmosphere added that pressed on it when it was read.
constexpr AbsolutePressure absolute(GaugePressure gauge, AbsolutePressure atmosphere) {
  return AbsolutePressure(gauge.si() + atmosphere.si());
}

constexpr double kIcePointKelvin = 273.15;  // of the Celsius scale, by definition
constexpr Temperature kelvin(double value) { return Temperature(value); }
constexpr Temperature celsius(double value) { return Temperature(value + kIcePointKelvin); }
constexpr double kelvin_of(Temperature temperature) { return temperature.si(); }
constexpr double celsius_of(Temperature temperature) { return temperature.si() - kIcePointKelvin; }

constexpr Length metres(double value) { return Length(value); }
constexpr Length millimetres(double value) { return Length(value / 1e3); }
constexpr double millimetres_of(Length length) { return length.si() * 1e3; }

constexpr Energy joules(double value) { return Energy(value); }
constexpr double joules_of(Energy energy) { return energy.si(); }

constexpr Mass operator*(Density density, Volume volume) {
  return Mass(density.si() * volume.si());
}
constexpr Density operator/(Mass mass, Volume volume) { return Density(mass.si() / volume.si()); }
constexpr Volume operator/(Mass mass, Density density) { return Volume(mass.si() / density.si()); }

}  // namespace benchwarden::quantities
