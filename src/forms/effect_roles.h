#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entries/effect.h"

namespace benchwarden::forms {

/// What a field must be to play a role of an effect.
enum class RoleType {
  kContainer,   ///< an id of the class container
  kCarrier,     ///< an id of the class carrier
  kCollection,  ///< an id of the class collection
  kThing,       ///< an id of a registered class named by the definition
  kNamedThing,  ///< an id whose class stands in another field of the form
  kAnyThing,    ///< an id of any class, registered or not
  kVolume,
  kMass,
  kCount,
  kCode,  ///< a code field whose options are all among `Role::codes`
  kText,
  kList,
};

struct Role {
  std::string_view name;  ///< "container"; "loads.volume" is a column of the list in role "loads"
  RoleType type = RoleType::kText;
  bool required = false;
  std::vector<std::string_view> codes;
};

/// The roles of an effect by its name, or nullptr for an unknown name. The set of effects is
/// closed: each has one struct in entries/effect.h.
const std::vector<Role>* find_roles(std::string_view effect);
/// "adds, moves, …", for faults.
std::string list_effects();

std::optional<entries::CollectionStage> collection_stage(std::string_view code);
std::optional<entries::Outcome> outcome(std::string_view code);
std::optional<entries::RegisterAct> register_act(std::string_view code);
std::optional<entries::ContainerAct> container_act(std::string_view code);
std::optional<entries::Authorship> authorship(std::string_view code);

}  // namespace benchwarden::forms
