#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/timestamp.h"
#include "quantities/quantity.h"
#include "tallies/facts.h"
#include "tallies/state.h"

namespace benchwarden::tallies {

std::optional<StreamFacts> stream_facts(const State& state, std::string_view stream);
std::optional<StreamFacts> stream_of_container(const State& state, std::string_view container);

struct Level {
  std::string container;
  std::string name;
  StreamFacts stream;  ///< of the defaults when the register names no stream
  bool retired = false;
  bool sealed = false;
  std::int64_t amount = 0;                        ///< µL or mg, by stream.counted_by
  std::optional<quantities::Microlitres> volume;  ///< none for solids
  std::optional<quantities::Milligrams> mass;     ///< none without a density
  /// Same unit as amount, rounded down. 0: no capacity or no percentage entered, or the container
  /// is counted by mass and its stream has no density to turn its capacity into mass.
  std::int64_t working_limit = 0;
  std::optional<std::int64_t> fraction_permille;  ///< of the working limit, ties away from zero
  std::optional<base::Instant> oldest_content;    ///< as ContentAges has it
  std::optional<Reading> last_reading;
};

/// Of a container with these attributes, in the unit of its stream, as in Level.
std::int64_t working_limit(const entries::Fields& container, const StreamFacts& stream);

/// Every container of the register in order of id, as at `until` (exclusive). Amounts are as at
/// that moment; name, limit and retirement as the register says now.
std::vector<Level> levels(const State& state, base::Instant until);

/// What arose of one stream in [from, until): the sum over its labelled waste containers.
std::int64_t arisen(const State& state, std::string_view stream, base::Instant from,
                    base::Instant until);
/// Volume or mass as mass, rounded to the milligram, ties away from zero; none without a density
/// for liquids, or beyond kAmountMax.
std::optional<quantities::Milligrams> as_mass(const StreamFacts& stream, std::int64_t amount);

}  // namespace benchwarden::tallies
