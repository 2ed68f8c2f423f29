#pragma once

#include <string>
#include <string_view>

#include "findings/finding.h"
#include "tallies/state.h"

namespace benchwarden::workshop {

/// What a workshop reads amounts in, by its register; metric with a point while that says nothing.
struct ShownIn {
  std::string units = "metric";         ///< or "us"
  std::string number_format = "point";  ///< or "comma"
};
ShownIn shown_in_of(const tallies::State& state);

/// The values of one sentence in these units. Amounts of one kind have as many places as the least
/// of them needs and as tell them apart, so that none seems to be on the other side of a limit.
findings::Values in_site_units(findings::Values values, const ShownIn& shown_in);

}  // namespace benchwarden::workshop
