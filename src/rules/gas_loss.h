#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "calculations/nitrogen_loss.h"
#include "findings/cylinder_course.h"
#include "rules/told.h"

// What the rule kind gas-loss and the history of a cylinder both tell: the readings stand as they
// were recorded.

namespace benchwarden::rules {

/// The nitrogen behind one reading of pressure and temperature.
findings::Told<findings::GasContent> content_at(const Scene& scene,
                                                const findings::Subject& cylinder,
                                                const tallies::Record& reading);
/// What one entry of use took, at 20 °C, without allowance.
findings::Told<quantities::Mass> use_of(const tallies::Record& use);

/// Whether from this cylinder-change on losses are counted anew.
bool is_filling(const tallies::Record& change);
/// The checks since the last filling, the newest first.
ToldOf checks_since_filling(const Scene& scene, const findings::Subject& cylinder);
/// The checks of each filling, the newest filling and the newest check first; never empty, its
/// lists may be.
std::vector<ToldOf> checks_by_filling(const Scene& scene, const findings::Subject& cylinder);

/// What one check of a filling tells of a loss.
struct LossAt {
  std::optional<findings::GasLoss> beyond;    ///< the uncertainty
  std::optional<findings::Untold> untold;     ///< why it cannot be told whether there is one
  const tallies::Record* compared = nullptr;  ///< the check it was held against; null for none
};

/// What left one cylinder between its checks, by the figures of a rule of the kind gas-loss: trust
/// in gauges that are not in the register, temperatures and water capacity, and an allowance on the
/// use. What an entry tells is worked out once in the life of this object.
class GasLosses {
 public:
  GasLosses(const Rule& rule, const Scene& scene, findings::Subject cylinder);

  findings::Told<findings::GasLoss> between(const tallies::Record& first,
                                            const tallies::Record& second);
  /// Held against the check before it, against the oldest within the rule's window, and against the
  /// oldest after a use that does not tell what it took, of those whose content can be told.
  /// Neither beyond nor untold: no loss, and both say so.
  LossAt at(const ToldOf& checks, std::size_t place);
  /// The uses in (from, until] that do not tell what they took.
  int untold_uses(base::Instant from, base::Instant until);

 private:
  using Content = findings::Told<calculations::UncertainContent>;

  [[nodiscard]] bool is_readable(const tallies::Record& check);
  const Content& content_of(const tallies::Record& check);
  const findings::Told<quantities::Mass>& taken_by(const tallies::Record& use);
  /// In (from, until], the newest first.
  [[nodiscard]] ToldOf uses_within(base::Instant from, base::Instant until) const;
  findings::Told<quantities::Mass> logged_use(base::Instant from, base::Instant until);
  ToldOf readable_before(const ToldOf& checks, std::size_t place);
  const tallies::Record* oldest_since_untold(const ToldOf& newest_first, base::Instant until);

  const Rule& rule_;
  const Scene& scene_;
  findings::Subject cylinder_;
  std::map<const tallies::Record*, bool> readable_;
  std::map<const tallies::Record*, Content> contents_;
  std::map<const tallies::Record*, findings::Told<quantities::Mass>> uses_;
};

}  // namespace benchwarden::rules
