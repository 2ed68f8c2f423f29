#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "diary.h"

namespace benchwarden::demo {

/// Where the invented workshop is written down: inventory.toml, routine.toml, stories.toml.
using DemoFiles = std::filesystem::path;
/// The id that a person of the inventory gets.
using Introduce = std::function<std::string(const Person&)>;

/// Tells fourteen months of the invented workshop into an empty book, up to `now`: its things under
/// care, its everyday work, its stories. The same files, seed and day tell the same. Moves the
/// clock of the book. Returns the almanac by which everything was dated.
Almanac tell(const workshop::Ports& ports, StoryClock& clock, const DemoFiles& files,
             base::Instant now, const Introduce& introduce);

}  // namespace benchwarden::demo
