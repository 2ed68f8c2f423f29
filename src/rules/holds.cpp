#include "rules/holds.h"

#include <map>
#include <string>

#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {

std::vector<const tallies::Record*> holds_in_force(const Scene& scene) {
  const ToldOf newest_first = told_of(scene, {}, {"hold"});
  std::map<std::string, const tallies::Record*> last;
  for (const tallies::Record* record : newest_first) {
    last.try_emplace(std::string(tallies::word(record->fields(), "authority")), record);
  }
  std::vector<const tallies::Record*> standing;
  for (const auto& [authority, record] : last) {
    if (tallies::word(record->fields(), "hold") == "placed") standing.push_back(record);
  }
  return standing;
}

}  // namespace benchwarden::rules
