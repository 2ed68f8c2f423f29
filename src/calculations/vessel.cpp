#include "calculations/vessel.h"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <numbers>

namespace benchwarden::calculations {
namespace {

using quantities::Length;
using quantities::Volume;

base::Status<Refusal> check_size(Length diameter, Length length) {
  constexpr double kMillimetresMax = 20000;
  const double diameter_mm = quantities::millimetres_of(diameter);
  if (auto fits = within("diameter_mm", diameter_mm, 1, kMillimetresMax); !fits) return fits;
  return within("length_mm", quantities::millimetres_of(length), 1, kMillimetresMax);
}

base::Status<Refusal> check_height(Length height, Length highest) {
  return within("height_mm", quantities::millimetres_of(height), 0,
                quantities::millimetres_of(highest));
}

/// A volume that is full but for rounding, as it comes back from litres, counts as full.
Outcome<double> checked_volume(Volume volume, double full_m3) {
  constexpr double kRounding = 1e-12;
  const double m3 = volume.si();
  if (m3 > full_m3 && m3 <= full_m3 * (1 + kRounding)) return full_m3;
  const auto fits =
      within("volume_l", quantities::litres_of(volume), 0, quantities::litres_of(Volume(full_m3)));
  if (!fits) return fits.error();
  return m3;
}

/// Area of the part of a circle below `height`, 0 <= height <= diameter: r² (a - sin a cos a) with
/// half the angle a that the part is seen under. Near the bottom rounding could leave less than 0.
double segment_area(double diameter, double height) {
  const double r = diameter / 2;
  const double half_angle = 2 * std::asin(std::sqrt(height / diameter));
  return std::max(0.0, r * r * (half_angle - std::sin(half_angle) * std::cos(half_angle)));
}

double circle_area(double diameter) { return std::numbers::pi / 4 * diameter * diameter; }

}  // namespace

Outcome<Volume> upright_volume(Length diameter, Length inside_height, Length height) {
  if (const auto fits = check_size(diameter, inside_height); !fits) return fits.error();
  if (const auto fits = check_height(height, inside_height); !fits) return fits.error();
  return Volume(circle_area(diameter.si()) * height.si());
}

Outcome<Length> upright_height(Length diameter, Length inside_height, Volume volume) {
  if (const auto fits = check_size(diameter, inside_height); !fits) return fits.error();
  const double full = circle_area(diameter.si()) * inside_height.si();
  const auto m3 = checked_volume(volume, full);
  if (!m3) return m3.error();
  return Length(*m3 / circle_area(diameter.si()));
}

Outcome<Volume> lying_volume(Length diameter, Length length, Length height) {
  if (const auto fits = check_size(diameter, length); !fits) return fits.error();
  if (const auto fits = check_height(height, diameter); !fits) return fits.error();
  return Volume(length.si() * segment_area(diameter.si(), height.si()));
}

Outcome<Length> lying_height(Length diameter, Length length, Volume volume) {
  if (const auto fits = check_size(diameter, length); !fits) return fits.error();
  const double full = circle_area(diameter.si()) * length.si();
  const auto m3 = checked_volume(volume, full);
  if (!m3) return m3.error();
  if (*m3 <= 0) return Length(0);
  const double area = *m3 / length.si();
  const auto missing = [&](double height) { return segment_area(diameter.si(), height) - area; };
  if (missing(diameter.si()) <= 0) return diameter;
  std::uintmax_t rounds = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      missing, 0.0, diameter.si(), boost::math::tools::eps_tolerance<double>(48), rounds);
  return Length((bracket.first + bracket.second) / 2);
}

}  // namespace benchwarden::calculations
