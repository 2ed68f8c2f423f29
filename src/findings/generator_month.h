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
  std::string category;  ///< a code of the register's generator_category
  friend bool operator==(const GeneratorMonth&, const GeneratorMonth&) = default;
};

}  // namespace benchwarden::findings
