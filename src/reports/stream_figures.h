#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "tallies/facts.h"

namespace benchwarden::reports {

/// Amounts are in the smallest unit of what the stream is counted by (µL or mg). Masses are in
/// milligrams, rounded to the gram; none where a density is missing.
struct StreamFigures {
  tallies::StreamFacts facts;
  std::string density_source;
  std::int64_t arisen = 0;     ///< into labelled waste containers
  std::int64_t collected = 0;  ///< by carriers
  std::int64_t standing = 0;   ///< in labelled waste containers at the end
  std::optional<std::int64_t> arisen_mass;
  std::optional<std::int64_t> collected_mass;
  std::optional<std::int64_t> standing_mass;
};

/// Sums of the rounded masses of streams; none when one of them is none.
struct MassTotals {
  std::optional<std::int64_t> arisen = 0;
  std::optional<std::int64_t> collected = 0;
  std::optional<std::int64_t> standing = 0;
};

}  // namespace benchwarden::reports
