#include "forms/thing_class.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace benchwarden::forms {
namespace {

constexpr std::array<std::string_view, 14> kRegistered{
    "workshop", "stream",  "container", "cylinder", "tool",   "gauge", "reference",
    "room",     "cabinet", "product",   "carrier",  "person", "plant", "closure",
};
constexpr std::array<std::string_view, 3> kByUse{"collection", "event", "stuck-part"};

}  // namespace

bool is_registered_class(std::string_view thing_class) {
  return std::find(kRegistered.begin(), kRegistered.end(), thing_class) != kRegistered.end();
}

std::string list_registered_classes() {
  return base::join({kRegistered.begin(), kRegistered.end()}, ", ");
}

bool is_class_by_use(std::string_view thing_class) {
  return std::find(kByUse.begin(), kByUse.end(), thing_class) != kByUse.end();
}

bool is_known_class(std::string_view thing_class) {
  return is_class_by_use(thing_class) || is_registered_class(thing_class);
}

}  // namespace benchwarden::forms
