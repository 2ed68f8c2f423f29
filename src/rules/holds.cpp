#include "rules/holds.h"

#include <algorithm>
#include <string_view>

#include "rules/told.h"

namespace benchwarden::rules {
namespace {

/// Whether what one entry names is a hold that the other placed.
bool names(const tallies::Record& naming, const tallies::Record& placed) {
  if (naming.word("authority") != placed.word("authority")) return false;
  const std::string_view scope = naming.word("scope");
  return scope.empty() || scope == placed.word("scope");
}

}  // namespace

std::vector<const tallies::Record*> holds_in_force(const Scene& scene, std::uint64_t without) {
  const ToldOf newest_first = told_of(scene, {}, {"hold"});
  std::vector<const tallies::Record*> standing;
  for (auto record = newest_first.rbegin(); record != newest_first.rend(); ++record) {
    if ((*record)->seq == without) continue;
    const auto is_named = [&](const tallies::Record* placed) { return names(**record, *placed); };
    if ((*record)->word("hold") == "lifted") {
      std::erase_if(standing, is_named);
    } else if (std::none_of(standing.begin(), standing.end(), is_named)) {
      standing.push_back(*record);
    }
  }
  return standing;
}

}  // namespace benchwarden::rules
