#include "rules/label_words.h"

#include <algorithm>

#include "rules/presumed_oil.h"
#include "tallies/facts.h"

namespace benchwarden::rules {

std::vector<LabelWords> label_words(const RuleBook& book, const Scene& scene,
                                    const findings::Subject& container) {
  std::vector<const Rule*> asking;
  for (const Rule& rule : book.rules()) {
    const bool asks = !rule.label_words.empty() && scene.applies(rule, container) &&
                      takes_content(rule, scene, container);
    if (asks) asking.push_back(&rule);
  }
  std::stable_partition(asking.begin(), asking.end(),
                        [](const Rule* rule) { return rule->figure("halogens") == nullptr; });
  std::vector<LabelWords> found;
  for (const Rule* rule : asking) {
    const bool known = std::any_of(found.begin(), found.end(), [&](const LabelWords& one) {
      return one.words == rule->label_words;
    });
    if (!known) found.push_back({rule->label_words, rule->authority});
  }
  return found;
}

bool tells_start(const RuleBook& book, const Scene& scene, const findings::Subject& container) {
  if (tallies::word(scene.attributes(container), "area") != "point-of-generation") return true;
  const auto& rules = book.rules();
  return std::any_of(rules.begin(), rules.end(), [&](const Rule& rule) {
    return rule.kind == "storage-clock" && scene.applies(rule, container) &&
           takes_content(rule, scene, container);
  });
}

}  // namespace benchwarden::rules
