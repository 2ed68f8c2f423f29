#include "workshop/proposal.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "rules/handover.h"
#include "workshop/finding_views.h"
#include "workshop/judgement.h"
#include "workshop/level_parts.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonArray;
using base::JsonObject;

/// The collections that are planned and still to come, by container.
std::map<std::string, JsonArray> planned_in(const tallies::State& state) {
  std::map<std::string, JsonArray> by_container;
  for (const auto& [id, stages] : state.collections()) {
    const tallies::CollectionTold* plan = tallies::open_plan(stages);
    if (plan == nullptr) continue;
    for (const entries::TakenLoad& load : plan->takes.loads) {
      by_container[load.container].emplace_back(id);
    }
  }
  return by_container;
}

class ProposalRenderer {
 public:
  ProposalRenderer(const Definitions& definitions, const tallies::State& state)
      : definitions_(definitions), state_(state), planned_(planned_in(state)) {}

  [[nodiscard]] Json handover(const rules::Handover& one) const {
    JsonArray loads;
    for (const rules::HandoverLoad& load : one.loads) loads.push_back(this->load(load));
    return JsonObject{{"day", base::format_date(one.day)}, {"loads", std::move(loads)}};
  }

  [[nodiscard]] Json undated(const rules::Undated& one) const {
    const std::string says = std::string(rules::says_of(one.filling.none));
    return JsonObject{{"container", one.level.container},
                      {"name", one.level.name},
                      {"sentence", sentence({"container", one.level.container}, says, {})}};
  }

 private:
  [[nodiscard]] std::string sentence(const findings::Subject& subject, const std::string& says,
                                     const findings::Values& values) const {
    return sentence_of(definitions_, state_, subject, says, values);
  }

  [[nodiscard]] Json load(const rules::HandoverLoad& one) const {
    const tallies::StreamFacts& stream = one.level.stream;
    const std::string suffix(amount_suffix(stream));
    const auto mass = tallies::as_mass(stream, one.expected);
    const auto planned = planned_.find(one.level.container);
    JsonArray reasons;
    for (const rules::HandoverReason& reason : one.reasons) reasons.push_back(this->reason(reason));
    return JsonObject{
        {"container", one.level.container},
        {"name", one.level.name},
        {"stream", stream_json(stream)},
        {"day", base::format_date(one.day)},
        {"now" + suffix, amount_json(stream, one.level.amount)},
        {"expected" + suffix, amount_json(stream, one.expected)},
        {"expected_mass_kg", mass ? Json(quantities::in_kilograms(*mass)) : Json(nullptr)},
        {"planned_in", planned == planned_.end() ? JsonArray() : planned->second},
        {"reasons", std::move(reasons)},
        {"forecast", forecast_json(stream, one.filling)}};
  }

  [[nodiscard]] Json reason(const rules::HandoverReason& one) const {
    JsonObject json{{"day", base::format_date(one.day)},
                    {"sentence", sentence(one.subject, one.says, one.values)}};
    JsonObject authority = authority_json(one.authority);
    std::move(authority.begin(), authority.end(), std::back_inserter(json));
    return json;
  }

  const Definitions& definitions_;
  const tallies::State& state_;
  std::map<std::string, JsonArray> planned_;
};

}  // namespace

base::Result<Json> show_proposal(const Ports& ports) {
  const auto state = ports.live.still();
  const auto in_force = rules_in_force(ports, *state);
  if (!in_force) return in_force.error();
  const rules::RuleBook& book = **in_force;
  const rules::Scene scene(*state, ports.clock.now(), zone_of(*state));
  const rules::Rule* rule = rules::handover_rule(book);
  const auto proposal = rules::propose_handovers(book, scene, rules::judge(book, scene));
  const ProposalRenderer render(ports.definitions, *state);
  JsonArray handovers;
  for (const rules::Handover& one : proposal.handovers) handovers.push_back(render.handover(one));
  JsonArray undated;
  for (const rules::Undated& one : proposal.undated) undated.push_back(render.undated(one));
  return Json(JsonObject{
      {"today", base::format_date(scene.today())},
      {"window_days",
       rule == nullptr ? Json(nullptr) : Json(base::Decimal{rule->figure("window")->value})},
      {"handovers", std::move(handovers)},
      {"undated", std::move(undated)}});
}

}  // namespace benchwarden::workshop
