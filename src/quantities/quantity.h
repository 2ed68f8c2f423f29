#pragma once

#include <cstdint>

namespace benchwarden::quantities {

/// A whole number of one smallest unit. Only equal tags add and compare, so a pressure cannot be
/// added to a volume, nor a gauge pressure to an absolute one.
template <class Tag>
class Whole {
 public:
  constexpr Whole() = default;
  explicit constexpr Whole(std::int64_t count) : count_(count) {}
  [[nodiscard]] constexpr std::int64_t count() const { return count_; }

  friend constexpr auto operator<=>(const Whole&, const Whole&) = default;
  friend constexpr Whole operator+(Whole a, Whole b) { return Whole(a.count_ + b.count_); }
  friend constexpr Whole operator-(Whole a, Whole b) { return Whole(a.count_ - b.count_); }
  constexpr Whole operator-() const { return Whole(-count_); }
  constexpr Whole& operator+=(Whole other) {
    count_ += other.count_;
    return *this;
  }
  constexpr Whole& operator-=(Whole other) {
    count_ -= other.count_;
    return *this;
  }

 private:
  std::int64_t count_ = 0;
};

using Microlitres = Whole<struct VolumeTag>;
using Milligrams = Whole<struct MassTag>;
using PascalsGauge = Whole<struct GaugePressureTag>;
using PascalsAbsolute = Whole<struct AbsolutePressureTag>;
using Millikelvin = Whole<struct TemperatureTag>;
using Micrometres = Whole<struct LengthTag>;
using GramsPerCubicMetre = Whole<struct DensityTag>;

/// Mass of a volume at a density, rounded to the milligram, ties away from zero. Exact otherwise.
/// Volume magnitude up to 10^12 µL (a million litres), density up to 10^7 g/m³.
Milligrams mass_of(Microlitres volume, GramsPerCubicMetre density);
/// The inverse, rounded to the microlitre, ties away from zero; density > 0.
Microlitres volume_of(Milligrams mass, GramsPerCubicMetre density);

}  // namespace benchwarden::quantities
