#pragma once

#include <cstdint>
#include <string>

#include "base/civil_date.h"

namespace benchwarden::findings {

/// What counted in a calendar month toward the limits of the categories of generators, in mg, and
/// the category it is that of, as rules of the kind month-mass have it.
struct GeneratorMonth {
  base::CivilMonth month;
  std::int64_t not_acute = 0;
  std::int64_t acute = 0;
  std::int64_t spill_residue = 0;
  /// Something that counts arose without a known mass: the sums are at least those of the month.
  bool unweighed = false;
  /// A code of the register's generator_category; "" where what was not weighed may change it.
  std::string category;
  friend bool operator==(const GeneratorMonth&, const GeneratorMonth&) = default;
};

}  // namespace benchwarden::findings
