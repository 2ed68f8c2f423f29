#include "workshop/device_views.h"

#include "tallies/devices.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

constexpr std::uint64_t kFirstNumber = 1;

JsonArray missing_json(const tallies::DeviceTold& told) {
  JsonArray missing;
  for (const tallies::NumberRange& gap : told.received.gaps_from(kFirstNumber)) {
    missing.push_back(JsonObject{{"from", gap.from}, {"to", gap.to}});
  }
  return missing;
}

/// One by one: each came with an entry of its own, so there are never more than entries.
JsonArray repeated_json(const tallies::DeviceTold& told) {
  JsonArray repeated;
  for (const tallies::NumberRange& range : told.repeated.all()) {
    for (std::uint64_t number = range.from; number <= range.to; ++number) {
      repeated.push_back(number);
    }
  }
  return repeated;
}

}  // namespace

base::JsonObject device_in_book(const Ports& ports, std::string_view device) {
  const auto state = ports.live.view();
  const auto found = state->devices().find(device);
  const tallies::DeviceTold told =
      found == state->devices().end() ? tallies::DeviceTold{} : found->second;
  const bool numbered = !told.received.all().empty();
  return {{"entries", told.entries},
          {"last_device_seq", numbered ? Json(told.received.highest()) : Json(nullptr)},
          {"missing", missing_json(told)},
          {"repeated", repeated_json(told)}};
}

std::vector<std::string> devices_in_book(const Ports& ports) {
  std::vector<std::string> ids;
  for (const auto& [id, told] : ports.live.view()->devices()) ids.push_back(id);
  return ids;
}

}  // namespace benchwarden::workshop
