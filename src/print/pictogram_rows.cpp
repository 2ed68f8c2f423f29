#include "print/pictogram_rows.h"

#include <algorithm>
#include <cassert>

namespace benchwarden::print {
namespace {

constexpr Mpt kPictogramGap = points(2);

/// How many stand in the first row, and in the second, half a place to the right of it.
struct RowCounts {
  std::size_t even = 1;
  std::size_t odd = 0;
};

RowCounts row_counts(std::size_t count, Mpt width, Mpt pitch) {
  RowCounts counts;
  counts.even = static_cast<std::size_t>(std::max<Mpt>((width + kPictogramGap) / pitch, 1));
  if (count <= counts.even) return {count, 0};
  const bool as_many = static_cast<Mpt>(counts.even) * pitch + pitch / 2 <= width + kPictogramGap;
  counts.odd = as_many ? counts.even : counts.even - 1;
  return counts;
}

}  // namespace

Mpt diagonal_of(Mpt side) { return side * document::kPictogramDiagonal / document::kPictogramSide; }

PictogramRows arrange_pictograms(std::size_t count, Mpt width, Mpt side) {
  assert(side > 0);
  PictogramRows rows;
  if (count == 0) return rows;
  const Mpt diagonal = diagonal_of(side);
  const Mpt pitch = diagonal + kPictogramGap;
  const RowCounts counts = row_counts(count, width, pitch);
  const bool both = counts.odd > 0;
  const Mpt shift = both && counts.odd == counts.even ? pitch / 2 : 0;
  const Mpt all = static_cast<Mpt>(counts.even) * pitch - kPictogramGap + shift;
  const Mpt left = (width - all) / 2;
  const Mpt row_pitch = both ? pitch / 2 : pitch;
  for (std::size_t row = 0; rows.places.size() < count; ++row) {
    const bool odd = both && row % 2 == 1;
    const Mpt top = static_cast<Mpt>(row) * row_pitch;
    for (std::size_t i = 0; i < (odd ? counts.odd : counts.even); ++i) {
      if (rows.places.size() == count) break;
      rows.places.push_back({left + static_cast<Mpt>(i) * pitch + (odd ? pitch / 2 : 0), top});
    }
    rows.height = top + diagonal;
  }
  return rows;
}

}  // namespace benchwarden::print
