#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "quantities/quantity.h"
#include "quantities/units.h"
#include "tallies/register.h"

namespace benchwarden::tallies {

inline constexpr std::int64_t kDensityMax = 10'000'000;  ///< g/m³, the range of mass_of

/// What a stream is counted by: liquids by volume, solids by mass. Amounts in timelines are in
/// its smallest unit.
enum class CountedBy { kVolume, kMass };

/// The stream of a container, with what is needed to turn volume into mass. Attributes come from
/// the register (container: stream, capacity_l, working_limit_percent, counts_waste; stream:
/// name, low_code, hazardous, counted_by, density_kg_m3). Where they are missing: hazardous,
/// counted by volume, no density.
struct StreamFacts {
  std::string id;
  std::string name;
  std::string low_code;
  bool hazardous = true;
  CountedBy counted_by = CountedBy::kVolume;
  std::optional<quantities::GramsPerCubicMetre> density;  ///< always > 0
};
std::optional<StreamFacts> stream_facts(const Register& under_care, std::string_view stream);

/// What the fold must know to count an amount in a container; cheap, since every entry asks.
struct ContainerFacts {
  CountedBy counted_by = CountedBy::kVolume;
  std::optional<quantities::GramsPerCubicMetre> density;
  bool counts_waste = true;  ///< waste counts unless the register says that this is a working bin
};
/// The defaults for a container that is not in the register.
ContainerFacts container_facts(const Register& under_care, std::string_view container);

/// "" when the attribute is missing or no text, code or id.
std::string_view word(const entries::Fields& attributes, std::string_view name);
/// None when the attribute is missing, not in this unit, or beyond a million of it.
std::optional<quantities::Quantity> measure(const entries::Fields& attributes,
                                            std::string_view name, std::string_view unit);
/// Not beyond a million of any unit.
bool is_measured(base::Decimal value);
/// Whether it is in this unit, and not beyond a million of it.
bool is_measure(const quantities::Quantity& quantity, std::string_view unit);

}  // namespace benchwarden::tallies
