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

/// The loss beyond uncertainty at one check of a filling: since the check before it, else since
/// the oldest within the rule's window. None where there is none, or where that cannot be told.
std::optional<findings::GasLoss> loss_found_at(const Rule& rule, const Scene& scene,
                                               const findings::Subject& cylinder,
                                               const ToldOf& checks, std::size_t at);

}  // namespace benchwarden::rules
