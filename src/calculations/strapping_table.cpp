#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <utility>

#include "calculations/vessel.h"

namespace benchwarden::calculations {
namespace {

using quantities::Length;
using quantities::Volume;

bool rises(const std::vector<double>& values) {
  return std::adjacent_find(values.begin(), values.end(),
                            [](double a, double b) { return !(a < b); }) == values.end();
}

bool never_falls(const std::vector<double>& values) {
  return std::adjacent_find(values.begin(), values.end(),
                            [](double a, double b) { return !(a <= b); }) == values.end();
}

/// Slopes at the rows. Inside, the weighted harmonic mean of both sides, 0 where one of them is
/// flat: with it no piece of the cubic can fall (Fritsch and Butland's form of the condition). At
/// the ends the slope of the outer piece.
std::vector<double> slopes_at(const std::vector<double>& x, const std::vector<double>& y) {
  const std::size_t last = x.size() - 1;
  std::vector<double> secants(last);
  for (std::size_t i = 0; i < last; ++i) secants[i] = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
  std::vector<double> slopes(x.size());
  slopes[0] = secants.front();
  slopes[last] = secants.back();
  for (std::size_t i = 1; i < last; ++i) {
    if (secants[i - 1] <= 0 || secants[i] <= 0) continue;
    const double before = x[i] - x[i - 1];
    const double after = x[i + 1] - x[i];
    const double weight_before = 2 * after + before;
    const double weight_after = after + 2 * before;
    slopes[i] = (weight_before + weight_after) /
                (weight_before / secants[i - 1] + weight_after / secants[i]);
  }
  return slopes;
}

}  // namespace

Outcome<StrappingTable> StrappingTable::make(std::vector<double> heights_mm,
                                             std::vector<double> volumes_l) {
  const auto rows = static_cast<double>(heights_mm.size());
  if (heights_mm.size() != volumes_l.size()) {
    return Refusal{RefusalCode::kUnequalLists, "table_volume_l",
                   static_cast<double>(volumes_l.size()), rows, rows};
  }
  if (rows < 2) return Refusal{RefusalCode::kTooFew, "table_height_mm", rows, 2, 1e6};
  if (!rises(heights_mm)) return Refusal{RefusalCode::kNoSolution, "table_height_mm"};
  if (!never_falls(volumes_l)) return Refusal{RefusalCode::kNoSolution, "table_volume_l"};
  StrappingTable table;
  table.slopes_ = slopes_at(heights_mm, volumes_l);
  table.heights_ = std::move(heights_mm);
  table.volumes_ = std::move(volumes_l);
  return table;
}

double StrappingTable::litres_at(double height_mm) const {
  const auto above = std::upper_bound(heights_.begin() + 1, heights_.end() - 1, height_mm);
  const auto i = static_cast<std::size_t>(above - heights_.begin()) - 1;
  const double width = heights_[i + 1] - heights_[i];
  const double t = (height_mm - heights_[i]) / width;
  const double s = 1 - t;
  // Hermite's basis, written so that each row's own volume comes out exactly at t = 0 and 1.
  return volumes_[i] * s * s * (1 + 2 * t) + volumes_[i + 1] * t * t * (1 + 2 * s) +
         width * t * s * (slopes_[i] * s - slopes_[i + 1] * t);
}

Outcome<Volume> StrappingTable::volume_at(Length height) const {
  const double mm = quantities::millimetres_of(height);
  const auto fits = within("height_mm", mm, heights_.front(), heights_.back());
  if (!fits) return fits.error();
  return quantities::litres(litres_at(mm));
}

Outcome<Length> StrappingTable::height_of(Volume volume) const {
  const double wanted = quantities::litres_of(volume);
  const auto fits = within("volume_l", wanted, volumes_.front(), volumes_.back());
  if (!fits) return fits.error();
  const auto row = std::lower_bound(volumes_.begin(), volumes_.end(), wanted);
  const auto i = static_cast<std::size_t>(row - volumes_.begin());
  if (*row == wanted) return quantities::millimetres(heights_[i]);
  const auto missing = [&](double mm) { return litres_at(mm) - wanted; };
  std::uintmax_t rounds = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      missing, heights_[i - 1], heights_[i], boost::math::tools::eps_tolerance<double>(48), rounds);
  return quantities::millimetres((bracket.first + bracket.second) / 2);
}

}  // namespace benchwarden::calculations
