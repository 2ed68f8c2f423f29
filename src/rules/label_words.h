#pragma once

#include <string>
#include <vector>

#include "rules/rule_book.h"

namespace benchwarden::rules {

/// Words that a container has to bear, and who asks for them.
struct LabelWords {
  std::string words;
  findings::Authority authority;
};

/// What the rules in force ask to be written on a container, each text once. Rules about used oil
/// as such stand first: those it is only held to when a test presumes it hazardous come after.
std::vector<LabelWords> label_words(const RuleBook& book, const Scene& scene,
                                    const findings::Subject& container);

/// Whether its label has to tell since when waste stands in the container: not where the waste
/// arises, but for waste whose days a rule in force counts there, too.
bool tells_start(const RuleBook& book, const Scene& scene, const findings::Subject& container);

}  // namespace benchwarden::rules
