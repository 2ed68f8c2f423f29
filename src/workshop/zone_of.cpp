#include "workshop/ports.h"

namespace benchwarden::workshop {

base::Zone zone_of(const tallies::State& state) {
  const tallies::Thing* site = state.thing("workshop", "site");
  if (site != nullptr) {
    const auto* name = entries::find_field_as<entries::Text>(site->attributes, "time_zone");
    if (name != nullptr) {
      const auto zone = base::Zone::find(name->text);
      if (zone) return *zone;
    }
  }
  return *base::Zone::find("UTC");
}

}  // namespace benchwarden::workshop
