#pragma once

#include <cstdint>
#include <optional>

#include "tallies/levels.h"

namespace benchwarden::reports {

/// The mass a report states for an amount of a stream, in milligrams and rounded once, to the gram
/// (0.001 kg), ties away from zero. None for a volume without a density; no volume has no mass,
/// whatever the density. Magnitude of the volume up to 10^15 µL.
std::optional<std::int64_t> stated_mass(const tallies::StreamFacts& stream, std::int64_t amount);

}  // namespace benchwarden::reports
