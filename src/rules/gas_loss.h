#pragma once

#include <optional>
#include <vector>

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

/// What left between two checks, by the figures of a rule of the kind gas-loss: trust in gauges
/// that are not in the register, temperatures and water capacity, and an allowance on the use.
findings::Told<findings::GasLoss> loss_between(const Rule& rule, const Scene& scene,
                                               const findings::Subject& cylinder,
                                               const tallies::Record& first,
                                               const tallies::Record& second);

/// Whether from this cylinder-change on losses are counted anew.
bool is_filling(const tallies::Record& change);
/// The checks of each filling, the newest filling and the newest check first; never empty, its
/// lists may be.
std::vector<ToldOf> checks_by_filling(const Scene& scene, const findings::Subject& cylinder);

/// What one check of a filling tells of a loss.
struct LossAt {
  std::optional<findings::GasLoss> beyond;    ///< the uncertainty
  std::optional<findings::Untold> untold;     ///< why it cannot be told whether there is one
  const tallies::Record* compared = nullptr;  ///< the check it was held against; null for none
};
/// Held against the check before it, against the oldest within the rule's window, and against the
/// oldest after a use that does not tell what it took, of those whose content can be told. Neither
/// beyond nor untold: no loss, and both say so.
LossAt loss_at(const Rule& rule, const Scene& scene, const findings::Subject& cylinder,
               const ToldOf& checks, std::size_t at);

}  // namespace benchwarden::rules
