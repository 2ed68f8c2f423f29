#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "rules/scene.h"

namespace benchwarden::rules {

/// The words of a setting that lists some, parted by commas: "rust, bulge".
std::vector<std::string> listed_words(std::string_view setting);

using ToldOf = std::vector<const tallies::Record*>;
/// What entries of these kinds told of a subject, the newest first, as far as it stands and had
/// happened by now. What is about no thing is asked for with an empty subject.
ToldOf told_of(const Scene& scene, const findings::Subject& subject,
               const std::vector<std::string>& kinds);

/// The things a rule is about: those of its setting `about` that it applies to, or the workshop as
/// a whole for "workshop".
std::vector<findings::Subject> subjects_of(const Rule& rule, const Scene& scene);

}  // namespace benchwarden::rules
