#pragma once

#include <string>
#include <string_view>

#include "base/timestamp.h"
#include "findings/finding.h"
#include "rules/rule_book.h"
#include "tallies/state.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

/// The packs that judge a workshop of this jurisdiction: those that always hold, and its own. ""
/// or "none" for none; an unknown one counts as none.
rules::RuleBook rules_of(const Definitions& definitions, std::string_view jurisdiction);
/// The same by the site's entry in the register.
rules::RuleBook rules_in_force(const Definitions& definitions, const tallies::State& state);

/// What the rules in force say of a state at a moment.
findings::Judgement judge(const Definitions& definitions, const tallies::State& state,
                          base::Instant now);

/// "Oil drum W1: its oldest content came in on …", with the name the register has.
std::string sentence_of(const Definitions& definitions, const tallies::State& state,
                        const findings::Subject& subject, std::string_view says,
                        const findings::Values& values);

}  // namespace benchwarden::workshop
