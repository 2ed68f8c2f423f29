#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "rules/filling.h"
#include "rules/rule_book.h"
#include "tallies/levels.h"

// What to hand over to a carrier, and when: a proposal from what the rules say and from forecasts.

namespace benchwarden::rules {

/// Why a container is to be handed over by a day.
struct HandoverReason {
  base::CivilDate day;
  findings::Authority authority;
  findings::Subject subject;  ///< the container, its room, or the workshop as a whole
  std::string says;           ///< key of its sentence
  findings::Values values;
};

struct HandoverLoad {
  tallies::Level level;  ///< as it is now
  Filling filling;
  base::CivilDate day;                  ///< the last for this container: the first of its reasons
  std::int64_t expected = 0;            ///< on the day of the handover, as level.amount is counted
  std::vector<HandoverReason> reasons;  ///< by day; never empty
};

/// What goes together.
struct Handover {
  /// The last open day before one of the containers is over something, today at the earliest.
  base::CivilDate day;
  std::vector<HandoverLoad> loads;  ///< by day
};

/// A container with content and without a day.
struct Undated {
  tallies::Level level;
  Filling filling;
};

struct HandoverProposal {
  std::vector<Handover> handovers;  ///< by day
  std::vector<Undated> undated;     ///< in order of id
};

/// The rule of kind `handover` in force; nullptr where the site has turned it off.
const Rule* handover_rule(const RuleBook& book);

/// Every container that counts waste, holds something and has a reason within `ahead` days. What is
/// due up to `window` days after the first of a handover goes with it. Reasons are what `said` has
/// due of storage clocks, quantities with a time and forecasts, and quantities that are over.
HandoverProposal propose_handovers(const RuleBook& book, const Scene& scene,
                                   const findings::Judgement& said);

}  // namespace benchwarden::rules
