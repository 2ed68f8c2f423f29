#include "quantities/converted.h"

#include <cassert>
#include <cstdint>

namespace benchwarden::quantities {

double converted(double value, const Unit& from, const Unit& to) {
  assert(from.dimension == to.dimension);
  const auto real = [](std::int64_t whole) { return static_cast<long double>(whole); };
  const long double smallest =
      (value * real(from.numerator) + real(from.offset)) / real(from.denominator);
  return static_cast<double>((smallest * real(to.denominator) - real(to.offset)) /
                             real(to.numerator));
}

}  // namespace benchwarden::quantities
