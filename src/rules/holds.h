#pragma once

#include <cstdint>
#include <vector>

#include "rules/scene.h"

namespace benchwarden::rules {

/// The holds that stand at the scene's moment, as if the entry `without` were not there (0: none).
/// A hold is an authority with its scope: each is placed and lifted for itself. An entry of an
/// older form lifts by the authority alone, and then all of its holds. The entry that placed each,
/// in order of time.
std::vector<const tallies::Record*> holds_in_force(const Scene& scene, std::uint64_t without = 0);

}  // namespace benchwarden::rules
