#include <utility>

#include "rules/filling.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

/// The day by which a container is to be handed over so that there is room in it: before it there
/// is one chance in forty that it comes to its working limit. No finding: it is no limit.
void judge_handover(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const tallies::Level& level : tallies::levels(scene.state(), just_after(scene.now()))) {
    const findings::Subject container{"container", level.container};
    const auto facts = tallies::container_facts(scene.state().under_care(), level.container);
    if (!facts.counts_waste || !scene.applies(rule, container)) continue;
    const Filling filling = filling_of(scene, level);
    if (!filling.earliest_95 || !filling.median) continue;
    said.due.push_back(
        {rule.authority,
         container,
         "fill-forecast",
         *filling.earliest_95,
         {{"day", shown(*filling.earliest_95)}, {"median", shown(*filling.median)}}});
  }
}

}  // namespace

std::vector<RuleKind> handover_kinds() {
  return {{"handover",
           {{"window", {"d"}, true, FigureRange{0, 366, true}},
            {"ahead", {"d"}, true, FigureRange{0, 366, true}}},
           {},
           judge_handover,
           "container"}};
}

}  // namespace benchwarden::rules
