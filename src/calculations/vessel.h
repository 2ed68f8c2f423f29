#pragma once

#include <vector>

#include "calculations/refusal.h"
#include "quantities/measure.h"

namespace benchwarden::calculations {

// What stands in a container, from the height of its content. Inside dimensions; heights from the
// lowest point inside. Heads are taken as flat: hoops and dished heads of a steel drum change its
// content by 1 to 2 % (from memory).

/// A cylinder standing on its flat end: pi d² h / 4. 0 <= height <= inside_height; diameter and
/// inside_height up to 20 m; else kOutOfRange.
Outcome<quantities::Volume> upright_volume(quantities::Length diameter,
                                           quantities::Length inside_height,
                                           quantities::Length height);
/// The inverse: 0 <= volume <= content when full.
Outcome<quantities::Length> upright_height(quantities::Length diameter,
                                           quantities::Length inside_height,
                                           quantities::Volume volume);

/// A cylinder lying on its side: length times the segment of the circle. 0 <= height <= diameter.
Outcome<quantities::Volume> lying_volume(quantities::Length diameter, quantities::Length length,
                                         quantities::Length height);
/// The inverse, to a relative 1e-12 of the diameter.
Outcome<quantities::Length> lying_height(quantities::Length diameter, quantities::Length length,
                                         quantities::Volume volume);

/// A strapping table: volumes measured or calculated at heights. Read in between by a curve that
/// goes through every point and never falls between two points (F. N. Fritsch and R. E. Carlson,
/// "Monotone piecewise cubic interpolation", SIAM J. Numer. Anal. 17 (1980) 238).
class StrappingTable {
 public:
  /// Two rows or more, heights rising, volumes not falling; else kTooFew, kUnequalLists or
  /// kNoSolution (height_mm or volume_l).
  static Outcome<StrappingTable> make(std::vector<double> heights_mm,
                                      std::vector<double> volumes_l);
  /// Between the first and the last row; else kOutOfRange.
  [[nodiscard]] Outcome<quantities::Volume> volume_at(quantities::Length height) const;
  /// The lowest height with that volume.
  [[nodiscard]] Outcome<quantities::Length> height_of(quantities::Volume volume) const;

 private:
  StrappingTable() = default;
  [[nodiscard]] double litres_at(double height_mm) const;
  std::vector<double> heights_;  // mm
  std::vector<double> volumes_;  // L
  std::vector<double> slopes_;   // L/mm, at each row
};

}  // namespace benchwarden::calculations
