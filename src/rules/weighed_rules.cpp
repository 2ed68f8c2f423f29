#include <algorithm>
#include <cstdlib>
#include <optional>
#include <string>
#include <utility>

#include "rules/collected.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

/// What was logged of one container and what the receiver weighed of it, in mg.
struct Weights {
  std::int64_t logged = 0;
  std::int64_t weighed = 0;
  const tallies::CollectionTold* told = nullptr;  ///< the weighing
};

const entries::TakenLoad* find_load(const tallies::CollectionTold& told,
                                    const std::string& container) {
  const auto& loads = told.takes.loads;
  const auto found = std::find_if(loads.begin(), loads.end(),
                                  [&](const auto& load) { return load.container == container; });
  return found == loads.end() ? nullptr : &*found;
}

/// None where the container was not weighed by now, or its log cannot be told as mass.
std::optional<Weights> weights_of(const Scene& scene, const Collected& collected,
                                  const std::string& container) {
  const auto logged = mass_taken(scene.state(), container, collected.taken);
  const auto& stages = collected.stages;
  for (auto told = stages.rbegin(); logged && told != stages.rend(); ++told) {
    const bool weighing =
        told->takes.stage == entries::CollectionStage::kWeighed && told->at <= scene.now();
    const entries::TakenLoad* load = weighing ? find_load(*told, container) : nullptr;
    if (load == nullptr || !load->amount.mass) continue;
    return Weights{*logged, load->amount.mass->count(), &*told};
  }
  return std::nullopt;
}

bool is_apart(const Rule& rule, const Weights& weights) {
  constexpr std::int64_t kWhole = 100'000;
  const std::int64_t apart = std::abs(weights.weighed - weights.logged);
  // Both amounts are 10^12 mg at most and the share 10^6 thousandths: the products fit.
  const bool beyond = apart * kWhole > weights.logged * rule.figure("share")->value.thousandths;
  return beyond && compare(apart, *rule.figure("least")) > 0;
}

findings::Finding difference(const Rule& rule, const Scene& scene, const Collected& collected,
                             const std::string& container, const Weights& weights) {
  auto finding = finding_of(rule, collected.subject, "weighed-difference-over", weight(rule));
  const auto name = tallies::word(scene.attributes({"container", container}), "name");
  finding.since = weights.told->at;
  finding.values = {{"container", shown_word(name)},
                    {"measured", shown_amount(weights.weighed - weights.logged, false)},
                    {"limit", shown(*rule.figure("share"))},
                    {"weighed", shown_amount(weights.weighed, false)},
                    {"logged", shown_amount(weights.logged, false)},
                    {"which", shown_word(container)}};
  finding.entries = {std::min(weights.told->seq, collected.taken.seq),
                     std::max(weights.told->seq, collected.taken.seq)};
  return finding;
}

/// What the receiver weighed against what the log says was handed over, each container by itself:
/// apart by more than a share of it and by more than a mass.
void judge_weighed_difference(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const Collected& collected : collected_of(rule, scene)) {
    for (const entries::TakenLoad& load : collected.taken.takes.loads) {
      if (!is_load_meant(rule, scene, load.container, collected.taken.at)) continue;
      const auto weights = weights_of(scene, collected, load.container);
      if (!weights || !is_apart(rule, *weights)) continue;
      said.findings.push_back(difference(rule, scene, collected, load.container, *weights));
    }
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
