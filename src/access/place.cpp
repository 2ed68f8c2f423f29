#include "access/place.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace benchwarden::access {
namespace {

constexpr std::array<std::pair<Place, std::string_view>, 3> kPlaceNames{{
    {Place::kMachine, "machine"},
    {Place::kDevice, "device"},
    {Place::kElsewhere, "elsewhere"},
}};

}  // namespace

std::string_view place_name(Place place) {
  const auto* const found = std::find_if(kPlaceNames.begin(), kPlaceNames.end(),
                                         [place](const auto& pair) { return pair.first == place; });
  assert(found != kPlaceNames.end());
  return found->second;
}

std::optional<Place> place_from_name(std::string_view name) {
  for (const auto& [place, text] : kPlaceNames) {
    if (text == name) return place;
  }
  return std::nullopt;
}

bool is_loopback(std::string_view address) {
  return address.starts_with("127.") || address == "::1" || address.starts_with("::ffff:127.");
}

}  // namespace benchwarden::access
