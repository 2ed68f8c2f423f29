#pragma once

#include "quantities/units.h"

namespace benchwarden::quantities {

/// A value in another unit of its dimension, in floating point and right to the last digits of a
/// double: for calculations. What a book holds is converted by `convert`, in whole numbers. The
/// dimensions must be the same; asserted.
double converted(double value, const Unit& from, const Unit& to);

}  // namespace benchwarden::quantities
