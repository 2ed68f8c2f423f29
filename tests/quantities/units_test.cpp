#include "quantities/units.h"

#include <gtest/gtest.h>

namespace benchwarden::quantities {
namespace {

Quantity of(std::string_view value, std::string_view unit) {
  return {*base::parse_decimal(value), find_unit(unit)};
}
std::string in(std::string_view value, std::string_view from, std::string_view to) {
  const auto converted = convert(of(value, from), *find_unit(to));
  return converted.ok() ? base::format_decimal(converted->value) : converted.error().detail;
}

// Factors: NIST SP 811 (2008), appendix B.8 and B.9; printed there to seven digits, so the
// comparison below is at magnitudes where three decimals show seven digits.
TEST(Units, EqualTheFactorsOfNistSp811) {
  EXPECT_EQ(in("1000", "psi", "kpa"), "6894.757");
  EXPECT_EQ(in("1000", "gal_us", "l"), "3785.412");
  EXPECT_EQ(in("1000", "fl_oz_us", "ml"), "29573.53");
  EXPECT_EQ(in("1000", "gal_imp", "l"), "4546.09");
  EXPECT_EQ(in("1000", "fl_oz_imp", "ml"), "28413.063");  // 28413.0625, ties away from zero
  EXPECT_EQ(in("1000", "lb", "kg"), "453.592");
  EXPECT_EQ(in("1000", "oz", "g"), "28349.523");
  EXPECT_EQ(in("1000", "ft3", "m3"), "28.317");
  EXPECT_EQ(in("1000", "in", "mm"), "25400");
}

TEST(Units, ConvertTemperaturesWithTheirOffsets) {
  EXPECT_EQ(in("32", "f", "c"), "0");
  EXPECT_EQ(in("212", "f", "c"), "100");
  EXPECT_EQ(in("-40", "c", "f"), "-40");
  EXPECT_EQ(in("20", "c", "k"), "293.15");
}

// A year has twelve months, an hour sixty minutes, a percent ten thousand ppm: by their meaning.
TEST(Units, ConvertTimesRatesAndFractionsByTheirMeaning) {
  EXPECT_EQ(in("5", "a", "mo"), "60");
  EXPECT_EQ(in("1", "mo", "a"), "0.083");
  EXPECT_EQ(in("1.5", "h", "min"), "90");
  EXPECT_EQ(in("0.25", "per_min", "per_h"), "15");
  EXPECT_EQ(in("0.001", "percent", "ppm"), "10");
  EXPECT_EQ(in("0.5", "ppm", "percent"), "0");
  EXPECT_EQ(in("1000.5", "ppm", "percent"), "0.1");
}

TEST(Units, CountMonthsInNoDays) {
  EXPECT_NE(in("1", "mo", "d").find("do not measure"), std::string::npos);
  EXPECT_NE(in("1", "per_h", "h").find("do not measure"), std::string::npos);
}

TEST(Units, DoNotMixDimensions) {
  EXPECT_NE(in("1", "bar", "ml").find("do not measure"), std::string::npos);
  EXPECT_NE(in("1", "bar", "bar_abs").find("do not measure"), std::string::npos);
  EXPECT_NE(in("999999999999", "m3", "ml").find("too large"), std::string::npos);
  EXPECT_EQ(find_unit("furlong"), nullptr);
}

TEST(Units, BecomeSmallestUnitsExactly) {
  EXPECT_EQ(microlitres(of("62.005", "ml")).count(), 62'005);
  EXPECT_EQ(milligrams(of("1.2", "kg")).count(), 1'200'000);
  EXPECT_EQ(pascals_gauge(of("200", "bar")).count(), 20'000'000);
  EXPECT_EQ(millikelvin(of("-0.5", "c")).count(), 272'650);
  EXPECT_EQ(grams_per_cubic_metre(of("870", "kg_m3")).count(), 870'000);
}

TEST(Units, AreListedByDimension) {
  for (const Unit* unit : units_of(Dimension::kGaugePressure)) {
    EXPECT_EQ(unit->dimension, Dimension::kGaugePressure);
  }
  EXPECT_EQ(units_of(Dimension::kGaugePressure).size(), 10U);
}

TEST(Mass, IsVolumeTimesDensityRoundedToTheMilligram) {
  const GramsPerCubicMetre density(870'000);
  EXPECT_EQ(mass_of(Microlitres(1'000'000), density).count(), 870'000);
  EXPECT_EQ(mass_of(Microlitres(1), density).count(), 1);
  EXPECT_EQ(mass_of(Microlitres(-1), density).count(), -1);
  EXPECT_EQ(volume_of(Milligrams(870'000), density).count(), 1'000'000);
}

TEST(Quantity, AddsAndComparesWithItsOwnKindOnly) {
  EXPECT_EQ(Microlitres(2) + Microlitres(3), Microlitres(5));
  static_assert(!std::is_constructible_v<Microlitres, Milligrams>);
  static_assert(!std::is_convertible_v<std::int64_t, Microlitres>);
}

TEST(Decimals, ForPeopleAreRoundedWhereTheySaySo) {
  EXPECT_EQ(base::format_decimal(in_litres(Microlitres(1'234'500))), "1.235");
  EXPECT_EQ(base::format_decimal(in_millilitres(Microlitres(1'234'567))), "1234.567");
  EXPECT_EQ(base::format_decimal(in_kilograms(Milligrams(-1'500))), "-0.002");
}

}  // namespace
}  // namespace benchwarden::quantities
