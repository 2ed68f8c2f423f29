#pragma once

#include <cstdint>
#include <optional>

#include "base/json.h"
#include "tallies/levels.h"

namespace benchwarden::reports {

/// Exact: µL as millilitres, mg as grams, with at most three places.
base::Json amount_json(std::int64_t amount);
/// "ml" or "g": the unit of amount_json.
base::Json amount_unit_json(tallies::CountedBy counted_by);
/// A mass rounded to the gram, in kilograms.
base::Json mass_kg_json(const std::optional<std::int64_t>& mass);
base::Json time_json(const std::optional<base::Timestamp>& time);

}  // namespace benchwarden::reports
