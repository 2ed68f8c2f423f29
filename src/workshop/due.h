#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/civil_date.h"
#include "base/json.h"
#include "base/result.h"
#include "base/timestamp.h"
#include "findings/finding.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// One thing that is due on a day of the workshop's zone. Rule, subject and part together name it:
/// there is one item at most of the three, which keeps its place in a calendar when its day moves.
struct DueItem {
  base::CivilDate day;
  std::string rule;                    ///< "planned-collection", or the id of a rule
  std::string subject;                 ///< "collection/c1"
  std::string part;                    ///< which of several about the subject: findings::part_of
  std::string sentence;                ///< whole in itself, its day in it
  std::string citation;                ///< what asks for it
  std::optional<std::uint64_t> entry;  ///< that the plan stands in; none of what a rule asks for
  /// Of the figures of a rule; none where no rule stands behind it.
  std::optional<findings::Confidence> confidence;
  base::Instant last_changed;  ///< when the newest entry was recorded that may have moved it
};

/// How far ahead what the rules ask for is told.
inline constexpr int kDueDaysAhead = 400;

/// What is due, by day, then rule and subject; days that have passed, too: the collections that
/// were planned and of which nothing was taken yet, and what the rules in force ask for within
/// `days_ahead`. A finding that was acknowledged stays. kUnavailable: the disk fails. kDamaged: a
/// rule pack of the book cannot be read. Persons are named for who is signed in, never for others.
enum class Persons { kById, kByName };
base::Result<std::vector<DueItem>> due_items(const Ports& ports, Persons persons,
                                             int days_ahead = kDueDaysAhead);
/// The same of one state at one moment, whatever was recorded since.
base::Result<std::vector<DueItem>> due_items_at(const Ports& ports, const tallies::State& state,
                                                base::Instant moment, Persons persons,
                                                int days_ahead = kDueDaysAhead);

/// {"today", "items": [{"day", "rule", "subject", "part", "sentence", "citation", "confidence",
/// "entry"}]}, for who is signed in
base::Result<base::Json> show_due(const Ports& ports);

}  // namespace benchwarden::workshop
