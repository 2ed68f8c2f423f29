#include "forms/effect_roles.h"

#include <array>
#include <utility>

#include "base/text.h"

namespace benchwarden::forms {
namespace {

using entries::Authorship;
using entries::CollectionStage;
using entries::ContainerAct;
using entries::Outcome;
using entries::RegisterAct;

// Each code of a role and what it means: the one place where words become enums.
constexpr std::array<std::pair<std::string_view, CollectionStage>, 5> kStages{{
    {"planned", CollectionStage::kPlanned},
    {"taken", CollectionStage::kTaken},
    {"document-returned", CollectionStage::kDocumentReturned},
    {"weighed", CollectionStage::kWeighed},
    {"not-taken", CollectionStage::kNotTaken},
}};
constexpr std::array<std::pair<std::string_view, Outcome>, 6> kOutcomes{{
    {"recorded", Outcome::kRecorded},
    {"not-done", Outcome::kRecorded},
    {"passed", Outcome::kPassed},
    {"in-service", Outcome::kPassed},
    {"failed", Outcome::kFailed},
    {"withdrawn", Outcome::kWithdrawn},
}};
constexpr std::array<std::pair<std::string_view, RegisterAct>, 3> kRegisterActs{{
    {"added", RegisterAct::kAdded},
    {"changed", RegisterAct::kChanged},
    {"retired", RegisterAct::kRetired},
}};
constexpr std::array<std::pair<std::string_view, ContainerAct>, 4> kContainerActs{{
    {"placed", ContainerAct::kPlaced},
    {"sealed", ContainerAct::kSealed},
    {"emptied", ContainerAct::kEmptied},
    {"swapped", ContainerAct::kSwapped},
}};
constexpr std::array<std::pair<std::string_view, Authorship>, 2> kAuthorships{{
    {"mine", Authorship::kMine},
    {"not-mine", Authorship::kNotMine},
}};

template <class T>
std::optional<typename T::value_type::second_type> look_up(const T& rows, std::string_view code) {
  for (const auto& [key, value] : rows) {
    if (key == code) return value;
  }
  return std::nullopt;
}

template <class T>
std::vector<std::string_view> codes_of(const T& rows) {
  std::vector<std::string_view> codes;
  for (const auto& row : rows) codes.push_back(row.first);
  return codes;
}

struct EffectRoles {
  std::string_view effect;
  std::vector<Role> roles;
};

const std::vector<EffectRoles>& table() {
  static const std::vector<EffectRoles> rows{
      {"adds",
       {{"container", RoleType::kContainer, true, {}},
        {"volume", RoleType::kVolume, false, {}},
        {"mass", RoleType::kMass, false, {}},
        {"suspected",
         RoleType::kCode,
         false,
         {"none", "water", "solvent", "chlorinated", "glycol", "unknown"}},
        {"solvent",
         RoleType::kCode,
         false,
         {"hydrocarbon", "alcohol", "ketone-ester", "halogenated", "mixed", "unknown"}}}},
      {"moves",
       {{"from", RoleType::kContainer, true, {}},
        {"to", RoleType::kContainer, true, {}},
        {"volume", RoleType::kVolume, false, {}},
        {"mass", RoleType::kMass, false, {}}}},
      {"takes",
       {{"collection", RoleType::kCollection, true, {}},
        {"stage", RoleType::kCode, true, codes_of(kStages)},
        {"carrier", RoleType::kCarrier, false, {}},
        {"document_number", RoleType::kText, false, {}},
        {"loads", RoleType::kList, false, {}},
        {"loads.container", RoleType::kContainer, true, {}},
        {"loads.volume", RoleType::kVolume, false, {}},
        {"loads.mass", RoleType::kMass, false, {}},
        {"loads.emptied", RoleType::kCode, false, {"yes", "no"}}}},
      {"reads",
       {{"container", RoleType::kContainer, true, {}},
        {"volume", RoleType::kVolume, false, {}},
        {"mass", RoleType::kMass, false, {}}}},
      {"checks",
       {{"thing", RoleType::kThing, true, {}},
        {"outcome", RoleType::kCode, false, codes_of(kOutcomes)}}},
      {"changes",
       {{"thing", RoleType::kNamedThing, true, {}},
        {"act", RoleType::kCode, true, codes_of(kRegisterActs)}}},
      {"handles",
       {{"container", RoleType::kContainer, true, {}},
        {"act", RoleType::kCode, true, codes_of(kContainerActs)}}},
      {"notes", {{"thing", RoleType::kAnyThing, false, {}}}},
      {"confirms",
       {{"entries", RoleType::kList, true, {}},
        {"entries.number", RoleType::kCount, true, {}},
        {"authorship", RoleType::kCode, true, codes_of(kAuthorships)}}},
  };
  return rows;
}

}  // namespace

const std::vector<Role>* find_roles(std::string_view effect) {
  for (const EffectRoles& row : table()) {
    if (row.effect == effect) return &row.roles;
  }
  return nullptr;
}

std::string list_effects() {
  std::vector<std::string> names;
  for (const EffectRoles& row : table()) names.emplace_back(row.effect);
  return base::join(names, ", ");
}

std::optional<CollectionStage> collection_stage(std::string_view code) {
  return look_up(kStages, code);
}
std::optional<Outcome> outcome(std::string_view code) { return look_up(kOutcomes, code); }
std::optional<RegisterAct> register_act(std::string_view code) {
  return look_up(kRegisterActs, code);
}
std::optional<ContainerAct> container_act(std::string_view code) {
  return look_up(kContainerActs, code);
}
std::optional<Authorship> authorship(std::string_view code) { return look_up(kAuthorships, code); }

}  // namespace benchwarden::forms
