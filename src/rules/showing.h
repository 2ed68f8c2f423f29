#pragma once

#include <cstdint>
#include <string_view>

#include "base/civil_date.h"
#include "base/timestamp.h"
#include "findings/finding.h"
#include "rules/rule.h"

// How values are handed to the sentences of findings: exact decimals in a unit, words as they are.

namespace benchwarden::rules {

findings::Shown shown(const RuleFigure& figure);
findings::Shown shown(base::CivilDate day);
findings::Shown shown_days(int days);
findings::Shown shown_word(std::string_view word);
/// An option of a field of the forms: people read its label.
findings::Shown shown_code(std::string_view code, std::string_view field);
/// A decimal in a unit, as it stands.
findings::Shown shown(base::Decimal value, std::string_view unit);
/// Microlitres as litres, milligrams as kilograms; rounded to three places.
findings::Shown shown_amount(std::int64_t amount, bool by_volume);
/// The same to the last microlitre or milligram.
findings::Shown shown_exactly(std::int64_t amount, bool by_volume);
/// "measured" and "limit", exactly where they would look the same after rounding and are not.
findings::Values shown_apart(std::int64_t measured, std::int64_t limit, bool by_volume);
/// A calculated value, rounded to three places.
findings::Shown shown_number(double value, std::string_view unit);
/// One below a limit, with as many places as it takes to show that it is.
findings::Shown shown_below(double value, double limit, std::string_view unit);

/// Until and with this moment, where an end is exclusive.
base::Instant just_after(base::Instant at);

}  // namespace benchwarden::rules
