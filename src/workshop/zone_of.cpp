#include <string>

#include "workshop/ports.h"

namespace benchwarden::workshop {
namespace {

std::string zone_name(const tallies::State& state) {
  const tallies::Thing* site = state.thing("workshop", "site");
  const auto* name = site == nullptr
                         ? nullptr
                         : entries::find_field_as<entries::Text>(site->attributes, "time_zone");
  return name == nullptr ? "UTC" : name->text;
}

}  // namespace

base::Zone zone_of(const tallies::State& state) {
  const auto zone = base::Zone::find(zone_name(state));
  return zone ? *zone : *base::Zone::find("UTC");
}

base::Status<> check_zone(const tallies::State& state) {
  for (const std::string& name : {std::string("UTC"), zone_name(state)}) {
    const auto zone = base::Zone::find(name);
    if (zone) continue;
    return base::Error{base::ErrorCode::kUnavailable,
                       zone.error().detail + ", but the book needs it: install the time zone data"};
  }
  return base::Done{};
}

base::CivilDate today(const Ports& ports) {
  return zone_of(*ports.live.view()).date_of(ports.clock.now());
}

}  // namespace benchwarden::workshop
