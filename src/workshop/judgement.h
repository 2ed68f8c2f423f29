#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/json.h"
#include "base/timestamp.h"
#include "findings/finding.h"
#include "rules/rule_book.h"
#include "tallies/state.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// The built-in packs that judge a workshop of this jurisdiction: those that always hold, and its
/// own. "" or "none" for none; an unknown one counts as none.
rules::RuleBook rules_of(const Definitions& definitions, std::string_view jurisdiction);

/// The SHA-256 of the text of every pack in force, the uppermost last: those that always hold, the
/// one the register names for the site, and the workshop's own. Which text of a pack that is, the
/// entries say that adopted it; what was never adopted is as it is built in.
PackShelf::Digests packs_in_force(const PackShelf& shelf, const tallies::State& state);

/// The rules by which a state is judged: of a state seen from a viewpoint, those adopted by then.
/// kDamaged: the book's text of a pack is none; kUnavailable: the disk fails.
base::Result<std::shared_ptr<const rules::RuleBook>> rules_in_force(const Ports& ports,
                                                                    const tallies::State& state);

/// What the rules in force say of a state at a moment. Errors as rules_in_force.
base::Result<findings::Judgement> judge(const Ports& ports, const tallies::State& state,
                                        base::Instant now);

/// "Oil drum W1: its oldest content came in on …", with the name the register has, and of options
/// their labels, amounts as the site reads them. A person is named where `names` are given, else
/// called by the id.
std::string sentence_of(const Definitions& definitions, const tallies::State& state,
                        const findings::Subject& subject, std::string_view says,
                        const findings::Values& values, const NameBook* names = nullptr);
/// One value as such a sentence has it: "205 L", "90 days"; in the unit it came in.
std::string value_text(const Definitions& definitions, const tallies::State& state,
                       const findings::Shown& value);
/// "container/w1"; "workshop/site" for the workshop as a whole.
std::string subject_text(const findings::Subject& subject);
/// {"rule", "pack", "pack_edition", "pack_digest", "says", "citation", "confidence"}
base::JsonObject authority_json(const findings::Authority& authority);

}  // namespace benchwarden::workshop
