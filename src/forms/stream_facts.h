#pragma once

#include <optional>
#include <string>

#include "forms/submission.h"

namespace benchwarden::forms {

/// The stream of what is in a container; none where the register does not tell.
std::optional<Thing> stream_of(const std::string& container, const Surroundings& surroundings);

/// Its density; none where the register has none.
std::optional<quantities::GramsPerCubicMetre> density_of(const std::string& container,
                                                         const Surroundings& surroundings);

}  // namespace benchwarden::forms
