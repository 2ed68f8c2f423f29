#pragma once

#include <cstddef>
#include <vector>

#include "print/band.h"

namespace benchwarden::print {

/// Where squares on point stand, by the top left of their diagonals.
struct PictogramRows {
  std::vector<Point> places;
  Mpt height = 0;
};

/// `count` squares on point in the middle of `width`: side by side, or where they do not fit so, in
/// rows that reach into each other. One that is wider than `width` reaches over it.
PictogramRows arrange_pictograms(std::size_t count, Mpt width, Mpt side);

Mpt diagonal_of(Mpt side);

}  // namespace benchwarden::print
