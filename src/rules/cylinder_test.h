#pragma once

#include <optional>
#include <string_view>

#include "base/civil_date.h"
#include "rules/rule.h"
#include "rules/scene.h"

// When a gas cylinder is to be tested next, by its stamp.

namespace benchwarden::rules {

/// Whether the specification stamped on a cylinder ("DOT 3AA 2265", "3AL1800") is one of these
/// words: by whole words, with or without the pressure at their end.
bool has_specification(const entries::Fields& cylinder, std::string_view words);

/// Whether the rule speaks of a cylinder by its settings `specifications` and `match`. Of one
/// without a specification no rule speaks that asks for one, not even for another.
bool speaks_of(const Rule& rule, const entries::Fields& cylinder);

/// A star behind the test date counts by a rule that has a limit for it (the mass of water the
/// cylinder holds) on cylinders of the gases and specifications of the rule's settings `star_gases`
/// and `star_specifications`. Otherwise a star says nothing.
bool star_counts(const Rule& rule, const entries::Fields& cylinder);

/// Years from a test to the next: the rule's, with a counting star its `star_interval`. The
/// register's own where it is shorter, and where it is longer up to the rule's `approved`, once it
/// is entered who approved that.
int test_interval_years(const Rule& rule, const entries::Fields& cylinder);

/// The month up to and in which the test is due; none where no test month was entered.
std::optional<base::CivilMonth> test_due(const Rule& rule, const entries::Fields& cylinder);

/// A filling that an entry told of: the day it was filled, as far as it is known.
struct CylinderFilling {
  base::CivilDate day;
  const tallies::Record* record = nullptr;
};
/// The last one by day; none where none was told.
std::optional<CylinderFilling> last_filling(const Scene& scene, const findings::Subject& cylinder);

}  // namespace benchwarden::rules
