#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rules/rule_kind.h"
#include "rules/scene.h"

namespace benchwarden::rules {

/// What one entry took away by now, in a collection that may tell of several.
struct Collected {
  findings::Subject subject;
  tallies::CollectionTold taken;
  tallies::CollectionStages stages;
};

/// Settings of kinds about collections: which loads the rule is about, by whether their stream is
/// hazardous, and less those of some types of waste.
SettingSpec loads();
SettingSpec without_types();
/// Whether a load of this container, taken at a moment, is one the rule is about.
bool is_load_meant(const Rule& rule, const Scene& scene, const std::string& container,
                   base::Instant taken);
/// What was taken by now, entry by entry, collection after collection and in order of time, as far
/// as the rule is about it: with at least one such load.
std::vector<Collected> collected_of(const Rule& rule, const Scene& scene);
/// Of these the first under each document of a collection.
std::vector<Collected> documents_of(const Rule& rule, const Scene& scene);

/// What the log of a container lost to a collection, in mg; none where nothing is logged as taken,
/// or where it cannot be told as mass.
std::optional<std::int64_t> mass_taken(const tallies::State& state, const std::string& container,
                                       const tallies::CollectionTold& taken);

}  // namespace benchwarden::rules
