#pragma once

#include <vector>

#include "rules/scene.h"

namespace benchwarden::rules {

/// The holds of authorities that stand at the scene's moment: placed, and not lifted since by the
/// same authority. The entry that placed each, by authority.
std::vector<const tallies::Record*> holds_in_force(const Scene& scene);

}  // namespace benchwarden::rules
