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
/// A decimal in a unit, as it stands.
findings::Shown shown(base::Decimal value, std::string_view unit);
/// Microlitres as litres, milligrams as kilograms; rounded to three places.
findings::Shown shown_amount(std::int64_t amount, bool by_volume);
/// A calculated value, rounded to three places.
findings::Shown shown_number(double value, std::string_view unit);

/// Until and with this moment, where an end is exclusive.
base::Instant just_after(base::Instant at);

}  // namespace benchwarden::rules
