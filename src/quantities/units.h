#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/decimal.h"
#include "base/result.h"
#include "quantities/quantity.h"

namespace benchwarden::quantities {

enum class Dimension {
  kVolume,
  kMass,
  kGaugePressure,
  kAbsolutePressure,
  kTemperature,
  kLength,
  kDensity,
  kFraction,  ///< percent, ppm
  kCount,     ///< pieces
  kDuration,
  kCalendar,  ///< months and years, which are no fixed number of days
  kRate,      ///< changes of the air in a time
};

/// A unit a value can be written in. `id` is what the API and the definitions say ("ml", "psi");
/// `symbol` is what people read ("mL", "psi"). Plain pressure ids are gauge pressures, as read from
/// a workshop's instruments; absolute ones end in "_abs".
/// smallest units = (value * numerator + offset) / denominator, exactly. Factors: NIST SP 811
/// (2008) appendix B; pound, inch and gallons are exact by definition. Smallest units are those of
/// quantity.h, and the thousandth of a ppm, the piece, the second, the month and a thousandth per
/// hour.
struct Unit {
  std::string_view id;
  std::string_view symbol;
  Dimension dimension;
  std::int64_t numerator;
  std::int64_t denominator;
  std::int64_t offset;  ///< only temperatures have one
};

const Unit* find_unit(std::string_view id);
/// Every unit of one dimension, in the order of the table.
std::vector<const Unit*> units_of(Dimension dimension);
std::span<const Unit> all_units();

/// A value exactly as it stands in an entry: a decimal in a named unit.
struct Quantity {
  base::Decimal value;
  const Unit* unit = nullptr;
  friend bool operator==(const Quantity&, const Quantity&) = default;
};

/// The same quantity in another unit of its dimension, rounded to three places, ties away from
/// zero. kInvalid when the dimensions differ or the result is out of the range of Decimal.
base::Result<Quantity> convert(const Quantity& from, const Unit& to);

/// Exact for every unit stored in a book (their thousandth is a whole number of smallest units);
/// asserted. The dimension must fit the type; asserted.
Microlitres microlitres(const Quantity& quantity);
Milligrams milligrams(const Quantity& quantity);
PascalsGauge pascals_gauge(const Quantity& quantity);
Millikelvin millikelvin(const Quantity& quantity);
GramsPerCubicMetre grams_per_cubic_metre(const Quantity& quantity);

base::Decimal in_litres(Microlitres volume);       ///< rounded to the millilitre
base::Decimal in_millilitres(Microlitres volume);  ///< exact
base::Decimal in_kilograms(Milligrams mass);       ///< rounded to the gram

}  // namespace benchwarden::quantities
