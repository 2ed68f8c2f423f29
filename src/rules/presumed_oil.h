#pragma once

#include <string>

#include "rules/rule_kind.h"
#include "rules/scene.h"

// Used oil is held to rules of its own, until a test presumes it to be mixed with hazardous waste:
// then it is held to those of that waste as well.

namespace benchwarden::rules {

/// The figure of kinds whose rules take used oil only where a test shows more halogens than this.
/// A rule without it takes used oil as it takes any other waste.
FigureSpec halogens();

/// Whether the rule is about what stands in a container, as far as that is used oil.
bool takes_content(const Rule& rule, const Scene& scene, const findings::Subject& container);
/// The same of a load that was taken out of it; never where the rule has no such figure. A test
/// sampled on the day of the taking is of the load.
bool takes_oil_load(const Rule& rule, const Scene& scene, const std::string& container,
                    base::Instant taken);

}  // namespace benchwarden::rules
