#include "workshop/judgement.h"

#include <algorithm>
#include <array>

#include "tallies/facts.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::workshop {
namespace {

/// Those that hold everywhere; a jurisdiction's pack lies on top of them.
constexpr std::array<std::string_view, 2> kEverywhere{"workshop", "standards"};

std::string name_of(const tallies::State& state, const findings::Subject& subject,
                    const NameBook* names) {
  if (names != nullptr && subject.thing_class == "person") return names->display_name(subject.id);
  const bool of_all = subject.thing_class.empty();
  const tallies::Thing* thing =
      of_all ? state.thing("workshop", "site") : state.thing(subject.thing_class, subject.id);
  if (thing == nullptr) return subject.id;
  const std::string_view name = tallies::word(thing->attributes, "name");
  return std::string(name.empty() ? subject.id : name);
}

/// A label begins with a capital, which it loses inside a sentence: "handling cylinders". One of
/// capitals only, such as "EN 837", keeps them.
std::string label_in_sentence(const Definitions& definitions, const findings::Shown& shown) {
  std::string label(definitions.catalog.label_of(shown.field, shown.value));
  const auto is = [&](std::size_t at, char first, char last) {
    return label.size() > at && first <= label[at] && label[at] <= last;
  };
  if (is(0, 'A', 'Z') && is(1, 'a', 'z')) label[0] = static_cast<char>(label[0] - 'A' + 'a');
  return label;
}

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

PackShelf::Digests packs_in_force(const PackShelf& shelf, const tallies::State& state) {
  PackShelf::Digests digests;
  const auto add = [&](std::string_view id) {
    const auto adopted = adopted_pack(state, id);
    const rules::RulePack* built_in = shelf.built_in(id);
    if (adopted) {
      digests.push_back(adopted->digest);
    } else if (built_in != nullptr) {
      digests.push_back(built_in->digest);
    }
  };
  for (const std::string_view id : kEverywhere) add(id);
  const tallies::Thing* site = state.thing("workshop", "site");
  if (site != nullptr) add(tallies::word(site->attributes, "rule_pack"));
  if (const auto local = local_pack(state)) digests.push_back(local->digest);
  return digests;
}

base::Result<std::shared_ptr<const rules::RuleBook>> rules_in_force(const Ports& ports,
                                                                    const tallies::State& state) {
  return ports.packs.stacked(packs_in_force(ports.packs, state));
}

base::Result<findings::Judgement> judge(const Ports& ports, const tallies::State& state,
                                        base::Instant now) {
  const auto book = rules_in_force(ports, state);
  if (!book) return book.error();
  return rules::judge(**book, rules::Scene(state, now, zone_of(state)));
}

std::string sentence_of(const Definitions& definitions, const tallies::State& state,
                        const findings::Subject& subject, std::string_view says,
                        const findings::Values& values, const NameBook* names) {
  findings::Values labelled = values;
  for (auto& [name, shown] : labelled) {
    if (!shown.field.empty()) shown.value = label_in_sentence(definitions, shown);
  }
  return definitions.finding_wording.sentence(says, name_of(state, subject, names), labelled,
                                              shown_in_of(state));
}

std::string value_text(const Definitions& definitions, const tallies::State& state,
                       const findings::Shown& value) {
  findings::Shown labelled = value;
  if (!labelled.field.empty()) labelled.value = label_in_sentence(definitions, labelled);
  return definitions.finding_wording.shown(labelled, shown_in_of(state));
}

std::string subject_text(const findings::Subject& subject) {
  return subject.thing_class.empty() ? "workshop/site" : subject.thing_class + "/" + subject.id;
}

base::JsonObject authority_json(const findings::Authority& authority) {
  return {{"rule", authority.rule},
          {"pack", authority.pack},
          {"pack_edition", authority.edition},
          {"pack_digest", authority.digest},
          {"says", authority.sentence},
          {"citation", authority.citation},
          {"confidence", word(authority.confidence)}};
}

}  // namespace benchwarden::workshop
