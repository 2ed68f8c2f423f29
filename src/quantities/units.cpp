#include "quantities/units.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <optional>

namespace benchwarden::quantities {
namespace {

// Products of two 64-bit factors; overflow is checked below.
__extension__ using Wide = __int128;

// clang-format off
constexpr std::array kUnits{
    Unit{"ml", "mL", Dimension::kVolume, 1'000, 1, 0},
    Unit{"l", "L", Dimension::kVolume, 1'000'000, 1, 0},
    Unit{"m3", "m³", Dimension::kVolume, 1'000'000'000, 1, 0},
    Unit{"fl_oz_us", "US fl oz", Dimension::kVolume, 295'735'295'625, 10'000'000, 0},
    Unit{"gal_us", "US gal", Dimension::kVolume, 3'785'411'784, 1'000, 0},
    Unit{"fl_oz_imp", "imp fl oz", Dimension::kVolume, 284'130'625, 10'000, 0},
    Unit{"gal_imp", "imp gal", Dimension::kVolume, 4'546'090, 1, 0},
    Unit{"ft3", "ft³", Dimension::kVolume, 28'316'846'592, 1'000, 0},
    Unit{"in3", "in³", Dimension::kVolume, 16'387'064, 1'000, 0},
    Unit{"qt_us", "US qt", Dimension::kVolume, 946'352'946, 1'000, 0},
    Unit{"pt_imp", "imp pt", Dimension::kVolume, 56'826'125, 100, 0},
    Unit{"bbl", "bbl (42 US gal)", Dimension::kVolume, 158'987'294'928, 1'000, 0},
    Unit{"g", "g", Dimension::kMass, 1'000, 1, 0},
    Unit{"kg", "kg", Dimension::kMass, 1'000'000, 1, 0},
    Unit{"t", "t", Dimension::kMass, 1'000'000'000, 1, 0},
    Unit{"oz", "oz", Dimension::kMass, 45'359'237, 1'600, 0},
    Unit{"lb", "lb", Dimension::kMass, 45'359'237, 100, 0},
    Unit{"ton_us", "US ton", Dimension::kMass, 907'184'740, 1, 0},
    Unit{"bar", "bar", Dimension::kGaugePressure, 100'000, 1, 0},
    Unit{"kpa", "kPa", Dimension::kGaugePressure, 1'000, 1, 0},
    Unit{"mbar", "mbar", Dimension::kGaugePressure, 100, 1, 0},
    Unit{"hpa", "hPa", Dimension::kGaugePressure, 100, 1, 0},
    Unit{"mm_hg", "mmHg", Dimension::kGaugePressure, 133'322'387'415, 1'000'000'000, 0},
    Unit{"mpa", "MPa", Dimension::kGaugePressure, 1'000'000, 1, 0},
    Unit{"psi", "psi", Dimension::kGaugePressure, 44'482'216'152'605, 6'451'600'000, 0},
    Unit{"kgf_cm2", "kgf/cm²", Dimension::kGaugePressure, 980'665, 10, 0},
    Unit{"atm", "atm", Dimension::kGaugePressure, 101'325, 1, 0},
    Unit{"in_hg", "inHg", Dimension::kGaugePressure, 3'386'388'640'341, 1'000'000'000, 0},
    Unit{"bar_abs", "bar abs.", Dimension::kAbsolutePressure, 100'000, 1, 0},
    Unit{"kpa_abs", "kPa abs.", Dimension::kAbsolutePressure, 1'000, 1, 0},
    Unit{"mbar_abs", "mbar abs.", Dimension::kAbsolutePressure, 100, 1, 0},
    Unit{"hpa_abs", "hPa abs.", Dimension::kAbsolutePressure, 100, 1, 0},
    Unit{"mm_hg_abs", "mmHg abs.", Dimension::kAbsolutePressure, 133'322'387'415, 1'000'000'000, 0},
    Unit{"mpa_abs", "MPa abs.", Dimension::kAbsolutePressure, 1'000'000, 1, 0},
    Unit{"psi_abs", "psi abs.", Dimension::kAbsolutePressure, 44'482'216'152'605, 6'451'600'000, 0},
    Unit{"k", "K", Dimension::kTemperature, 1'000, 1, 0},
    Unit{"c", "°C", Dimension::kTemperature, 1'000, 1, 273'150},
    Unit{"f", "°F", Dimension::kTemperature, 5'000, 9, 2'298'350},
    Unit{"mm", "mm", Dimension::kLength, 1'000, 1, 0},
    Unit{"cm", "cm", Dimension::kLength, 10'000, 1, 0},
    Unit{"m", "m", Dimension::kLength, 1'000'000, 1, 0},
    Unit{"in", "in", Dimension::kLength, 25'400, 1, 0},
    Unit{"ft", "ft", Dimension::kLength, 304'800, 1, 0},
    Unit{"kg_m3", "kg/m³", Dimension::kDensity, 1'000, 1, 0},
    Unit{"kg_l", "kg/L", Dimension::kDensity, 1'000'000, 1, 0},
    Unit{"lb_gal_us", "lb/US gal", Dimension::kDensity, 453'592'370'000'000, 3'785'411'784, 0},
    Unit{"ppm", "ppm", Dimension::kFraction, 1'000, 1, 0},
    Unit{"percent", "%", Dimension::kFraction, 10'000'000, 1, 0},
    Unit{"1", "", Dimension::kCount, 1, 1, 0},
    Unit{"min", "min", Dimension::kDuration, 60, 1, 0},
    Unit{"h", "h", Dimension::kDuration, 3'600, 1, 0},
    Unit{"d", "days", Dimension::kDuration, 86'400, 1, 0},
    Unit{"mo", "months", Dimension::kCalendar, 1, 1, 0},
    Unit{"a", "years", Dimension::kCalendar, 12, 1, 0},
    Unit{"per_h", "1/h", Dimension::kRate, 1'000, 1, 0},
    Unit{"per_min", "1/min", Dimension::kRate, 60'000, 1, 0},
};
// clang-format on

std::optional<Wide> product(Wide a, Wide b) {
  Wide result = 0;
  if (__builtin_mul_overflow(a, b, &result)) return std::nullopt;
  return result;
}

Wide divide_half_away(Wide dividend, Wide divisor) {
  const Wide quotient = dividend / divisor;
  const Wide remainder = dividend % divisor < 0 ? -(dividend % divisor) : dividend % divisor;
  if (remainder < divisor - remainder) return quotient;
  return dividend < 0 ? quotient - 1 : quotient + 1;
}

/// Thousandths in `to` of `thousandths` in `from`; both unit formulas joined and divided once.
std::optional<Wide> convert_thousandths(std::int64_t thousandths, const Unit& from,
                                        const Unit& to) {
  const auto scaled = product(thousandths, from.numerator);
  if (!scaled) return std::nullopt;
  const auto left = product(*scaled + Wide{1000} * from.offset, to.denominator);
  const auto right = product(Wide{1000} * to.offset, from.denominator);
  if (!left || !right) return std::nullopt;
  return divide_half_away(*left - *right, Wide{from.denominator} * to.numerator);
}

/// Smallest units of a quantity whose unit makes them whole.
std::int64_t smallest(const Quantity& quantity, [[maybe_unused]] Dimension dimension) {
  assert(quantity.unit != nullptr && quantity.unit->dimension == dimension);
  const Unit& unit = *quantity.unit;
  const Wide dividend =
      Wide{quantity.value.thousandths} * unit.numerator + Wide{1000} * unit.offset;
  const Wide divisor = Wide{1000} * unit.denominator;
  assert(dividend % divisor == 0);
  return static_cast<std::int64_t>(dividend / divisor);
}

}  // namespace

const Unit* find_unit(std::string_view id) {
  const auto* found =
      std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) { return unit.id == id; });
  return found == kUnits.end() ? nullptr : found;
}

std::vector<const Unit*> units_of(Dimension dimension) {
  std::vector<const Unit*> units;
  for (const Unit& unit : kUnits) {
    if (unit.dimension == dimension) units.push_back(&unit);
  }
  return units;
}

std::span<const Unit> all_units() { return kUnits; }

base::Result<Quantity> convert(const Quantity& from, const Unit& to) {
  assert(from.unit != nullptr);
  if (from.unit->dimension != to.dimension) {
    return base::Error{base::ErrorCode::kInvalid, std::string(from.unit->id) + " and " +
                                                      std::string(to.id) +
                                                      " do not measure the same thing"};
  }
  if (from.unit == &to) return from;
  const auto thousandths = convert_thousandths(from.value.thousandths, *from.unit, to);
  if (!thousandths || *thousandths > base::kDecimalThousandthsMax ||
      *thousandths < -base::kDecimalThousandthsMax) {
    return base::Error{base::ErrorCode::kInvalid,
                       base::format_decimal(from.value) + " " + std::string(from.unit->id) +
                           " is too large to write in " + std::string(to.id)};
  }
  return Quantity{base::Decimal{static_cast<std::int64_t>(*thousandths)}, &to};
}

Microlitres microlitres(const Quantity& quantity) {
  return Microlitres(smallest(quantity, Dimension::kVolume));
}
Milligrams milligrams(const Quantity& quantity) {
  return Milligrams(smallest(quantity, Dimension::kMass));
}
PascalsGauge pascals_gauge(const Quantity& quantity) {
  return PascalsGauge(smallest(quantity, Dimension::kGaugePressure));
}
Millikelvin millikelvin(const Quantity& quantity) {
  return Millikelvin(smallest(quantity, Dimension::kTemperature));
}
GramsPerCubicMetre grams_per_cubic_metre(const Quantity& quantity) {
  return GramsPerCubicMetre(smallest(quantity, Dimension::kDensity));
}

base::Decimal in_litres(Microlitres volume) {
  return {base::divide_round_half_away(volume.count(), 1'000)};
}
base::Decimal in_millilitres(Microlitres volume) { return {volume.count()}; }
base::Decimal in_kilograms(Milligrams mass) {
  return {base::divide_round_half_away(mass.count(), 1'000)};
}

Milligrams mass_of(Microlitres volume, GramsPerCubicMetre density) {
  // 1 µL at 1 g/m³ is 10^-6 mg.
  const auto scaled = product(volume.count(), density.count());
  assert(scaled.has_value());
  return Milligrams(static_cast<std::int64_t>(divide_half_away(*scaled, 1'000'000)));
}

Microlitres volume_of(Milligrams mass, GramsPerCubicMetre density) {
  assert(density.count() > 0);
  const auto scaled = product(mass.count(), 1'000'000);
  assert(scaled.has_value());
  return Microlitres(static_cast<std::int64_t>(divide_half_away(*scaled, density.count())));
}

}  // namespace benchwarden::quantities
