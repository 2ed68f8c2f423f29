#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "rules/rule_kind.h"
#include "rules/scene.h"
#include "tallies/levels.h"

// Limits of rules: held against exactly, in whatever unit the source gives them.

namespace benchwarden::rules {

/// A setting of kinds that hold something against the figure `limit`: whether the limit itself is
/// still in order. It is where nothing is said.
SettingSpec limit_is();
/// A setting of kinds whose finding weighs what the pack says: beyond a limit, to be done, a note.
SettingSpec weighs();
findings::Severity weight(const Rule& rule);

/// `amount` (in smallest units: µL, mg, ppm) against `percent` of the figure, in thousandths of a
/// percent: below 0, 0, above 0. No rounding.
int compare(std::int64_t amount, const RuleFigure& figure, std::int64_t percent = 100'000);
/// Whether the amount is beyond the figure, by the rule's setting `limit_is`.
bool is_beyond(const Rule& rule, std::int64_t amount, const RuleFigure& limit);
/// Whether it has come to the share of the limit at which the rule warns (figure `near`, percent).
bool is_near(const Rule& rule, std::int64_t amount, const RuleFigure& limit);

/// The amount as it is shown beside the figure: rounded, where that leaves it on the same side.
findings::Shown shown_beside(std::int64_t amount, const RuleFigure& limit);

/// The figure in its own unit, for a calculation that is not exact anyway.
double as_number(const RuleFigure& figure);
/// Whether a figure in this unit is one of volume, else of mass.
bool is_volume(const RuleFigure& figure);
/// An amount of a stream as volume (µL) or mass (mg); none without a density where it takes one.
std::optional<std::int64_t> measured_as(const tallies::StreamFacts& stream, std::int64_t amount,
                                        bool volume);

/// The kinds of unit that figures of volume, or of mass, are given in.
std::vector<std::string_view> volume_units();
std::vector<std::string_view> mass_units();
std::vector<std::string_view> amount_units();

/// A finding of this rule, to be filled.
findings::Finding finding_of(const Rule& rule, findings::Subject subject, std::string_view says,
                             findings::Severity severity);

}  // namespace benchwarden::rules
