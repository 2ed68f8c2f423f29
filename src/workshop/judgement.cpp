#include "workshop/judgement.h"

#include <algorithm>
#include <array>

#include "tallies/facts.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {
namespace {

/// Those that hold everywhere; a jurisdiction's pack lies on top of them.
constexpr std::array<std::string_view, 2> kEverywhere{"workshop", "standards"};

}  // namespace

rules::RuleBook rules_of(const Definitions& definitions, std::string_view jurisdiction) {
  std::vector<const rules::RulePack*> packs;
  const auto add = [&](std::string_view id) {
    const auto found = std::find_if(definitions.packs.begin(), definitions.packs.end(),
                                    [&](const rules::RulePack& pack) { return pack.id == id; });
    if (found != definitions.packs.end()) packs.push_back(&*found);
  };
  for (const std::string_view id : kEverywhere) add(id);
  add(jurisdiction);
  return rules::RuleBook::stacked(packs);
}

rules::RuleBook rules_in_force(const Definitions& definitions, const tallies::State& state) {
  const tallies::Thing* site = state.thing("workshop", "site");
  return rules_of(definitions, site == nullptr ? std::string_view()
                                               : tallies::word(site->attributes, "rule_pack"));
}

findings::Judgement judge(const Definitions& definitions, const tallies::State& state,
                          base::Instant now) {
  return rules::judge(rules_in_force(definitions, state), rules::Scene(state, now, zone_of(state)));
}

std::string sentence_of(const Definitions& definitions, const tallies::State& state,
                        const findings::Subject& subject, std::string_view says,
                        const findings::Values& values) {
  const bool of_all = subject.thing_class.empty();
  const tallies::Thing* thing =
      of_all ? state.thing("workshop", "site") : state.thing(subject.thing_class, subject.id);
  std::string_view name = subject.id;
  if (thing != nullptr && !tallies::word(thing->attributes, "name").empty()) {
    name = tallies::word(thing->attributes, "name");
  }
  return definitions.finding_wording.sentence(says, name, values);
}

}  // namespace benchwarden::workshop
