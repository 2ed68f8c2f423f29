#pragma once

#include <cstdint>
#include <string_view>

#include "base/json.h"
#include "rules/filling.h"
#include "tallies/facts.h"

// What is shown of a container in more than one place.

namespace benchwarden::workshop {

/// Amounts as the stream is counted: "_ml" or "_kg", and the number in that unit.
std::string_view amount_suffix(const tallies::StreamFacts& stream);
base::Json amount_json(const tallies::StreamFacts& stream, std::int64_t amount);

base::Json stream_json(const tallies::StreamFacts& stream);

/// {"none_because", "earliest_95", "earliest_80", "median", "latest_80", "latest_95", "rate"} and
/// the amount a day: days of the workshop's zone, null where the history does not bound them, all
/// null where `none_because` names why.
base::Json forecast_json(const tallies::StreamFacts& stream, const rules::Filling& filling);

}  // namespace benchwarden::workshop
