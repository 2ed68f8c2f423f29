#include "forms/thing_class.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace benchwarden::forms {
namespace {

constexpr std::array<std::string_view, 8> kRegistered{
    "workshop", "stream", "container", "cylinder", "tool", "gauge", "room", "carrier",
};

}  // namespace

bool is_registered_class(std::string_view thing_class) {
  return std::find(kRegistered.begin(), kRegistered.end(), thing_class) != kRegistered.end();
}

std::string list_registered_classes() {
  return base::join({kRegistered.begin(), kRegistered.end()}, ", ");
}

bool is_known_class(std::string_view thing_class) {
  return thing_class == "collection" || is_registered_class(thing_class);
}

}  // namespace benchwarden::forms
