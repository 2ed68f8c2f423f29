#pragma once

#include <cstdint>

namespace benchwarden::print {

/// Thousandths of a point (1 pt = 1/72 inch). Whole numbers, so that pages break at the same
/// place with every compiler.
using Mpt = std::int64_t;

constexpr Mpt points(std::int64_t whole) { return whole * 1000; }

/// Thousandths of a millimetre to thousandths of a point, rounded half up; lengths are positive.
constexpr Mpt from_micrometres(std::int64_t micrometres) {
  return (micrometres * 7200 + 1270) / 2540;
}

}  // namespace benchwarden::print
