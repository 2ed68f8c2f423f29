#include "calculations/vessel.h"

#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <numbers>

namespace benchwarden::calculations {
namespace {

using quantities::Length;
using quantities::Volume;

constexpr double kMetresMin = 1e-3;
constexpr double kMetresMax = 20;

base::Status<Refusal> check_size(Length diameter, Length length) {
  if (const auto fits = within("diameter_m", diameter.si(), kMetresMin, kMetresMax); !fits) {
    return fits;
  }
  return within("length_m", length.si(), kMetresMin, kMetresMax);
}

/// Area of the part of a circle below `height`, 0 <= height <= diameter.
double segment_area(double diameter, double height) {
  const double r = diameter / 2;
  return r * r * std::acos((r - height) / r) -
         (r - height) * std::sqrt(height * (diameter - height));
}

double circle_area(double diameter) { return std::numbers::pi / 4 * diameter * diameter; }

}  // namespace

Outcome<Volume> upright_volume(Length diameter, Length inside_height, Length height) {
  if (const auto fits = check_size(diameter, inside_height); !fits) return fits.error();
  if (const auto fits = within("height_m", height.si(), 0, inside_height.si()); !fits) {
    return fits.error();
  }
  return Volume(circle_area(diameter.si()) * height.si());
}

Outcome<Length> upright_height(Length diameter, Length inside_height, Volume volume) {
  if (const auto fits = check_size(diameter, inside_height); !fits) return fits.error();
  const double full = circle_area(diameter.si()) * inside_height.si();
  if (const auto fits = within("volume_m3", volume.si(), 0, full); !fits) return fits.error();
  return Length(volume.si() / circle_area(diameter.si()));
}

Outcome<Volume> lying_volume(Length diameter, Length length, Length height) {
  if (const auto fits = check_size(diameter, length); !fits) return fits.error();
  if (const auto fits = within("height_m", height.si(), 0, diameter.si()); !fits) {
    return fits.error();
  }
  return Volume(length.si() * segment_area(diameter.si(), height.si()));
}

Outcome<Length> lying_height(Length diameter, Length length, Volume volume) {
  if (const auto fits = check_size(diameter, length); !fits) return fits.error();
  const double full = circle_area(diameter.si()) * length.si();
  if (const auto fits = within("volume_m3", volume.si(), 0, full); !fits) return fits.error();
  if (volume.si() <= 0) return Length(0);
  const double area = volume.si() / length.si();
  const auto missing = [&](double height) { return segment_area(diameter.si(), height) - area; };
  if (missing(diameter.si()) <= 0) return diameter;
  std::uintmax_t rounds = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      missing, 0.0, diameter.si(), boost::math::tools::eps_tolerance<double>(48), rounds);
  return Length((bracket.first + bracket.second) / 2);
}

}  // namespace benchwarden::calculations
