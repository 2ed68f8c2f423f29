#include <algorithm>
#include <cstdlib>
#include <utility>

#include "rules/collected.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

const tallies::CollectionTold* last_weighed(const Scene& scene, const Collected& collected) {
  const auto& stages = collected.stages;
  const auto found = std::find_if(stages.rbegin(), stages.rend(), [&](const auto& told) {
    return told.takes.stage == entries::CollectionStage::kWeighed && told.at <= scene.now();
  });
  return found == stages.rend() ? nullptr : &*found;
}

struct Weights {
  std::int64_t logged = 0;   ///< mg
  std::int64_t weighed = 0;  ///< mg
};

Weights weights_of(const Scene& scene, const Collected& collected,
                   const tallies::CollectionTold& told) {
  Weights weights;
  for (const entries::TakenLoad& load : told.takes.loads) {
    const auto logged = mass_taken(scene.state(), load.container, collected.taken);
    if (!logged || !load.amount.mass) continue;
    weights.logged += *logged;
    weights.weighed += load.amount.mass->count();
  }
  return weights;
}

/// What the receiver weighed against what the log says was handed over, container by container in
/// sum: apart by more than a share of it and by more than a mass.
void judge_weighed_difference(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const Collected& collected : collected_of(rule, scene)) {
    const tallies::CollectionTold* told = last_weighed(scene, collected);
    if (told == nullptr) continue;
    constexpr std::int64_t kWhole = 100'000;
    const Weights weights = weights_of(scene, collected, *told);
    const std::int64_t apart = std::abs(weights.weighed - weights.logged);
    const std::int64_t share = weights.logged / kWhole * rule.figure("share")->value.thousandths;
    if (apart <= share || compare(apart, *rule.figure("least")) <= 0) continue;
    auto finding = finding_of(rule, collected.subject, "weighed-difference-over", weight(rule));
    finding.since = told->at;
    finding.values = {{"measured", shown_amount(weights.weighed - weights.logged, false)},
                      {"limit", shown(*rule.figure("share"))},
                      {"weighed", shown_amount(weights.weighed, false)},
                      {"logged", shown_amount(weights.logged, false)}};
    finding.entries = {std::min(told->seq, collected.taken.seq),
                       std::max(told->seq, collected.taken.seq)};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> weighed_kinds() {
  return {{"weighed-difference",
           {{"share", {"percent"}}, {"least", mass_units()}},
           {weighs(), loads(), without_types()},
           judge_weighed_difference,
           "collection"}};
}

}  // namespace benchwarden::rules
