#include "base/decimal.h"

#include <gtest/gtest.h>

#include <random>

namespace benchwarden::base {
namespace {

TEST(Decimal, ReadsWhatJsonCallsANumberWithUpToThreePlaces) {
  EXPECT_EQ(parse_decimal("62")->thousandths, 62'000);
  EXPECT_EQ(parse_decimal("0.5")->thousandths, 500);
  EXPECT_EQ(parse_decimal("-1.025")->thousandths, -1'025);
  EXPECT_EQ(parse_decimal("1.500")->thousandths, 1'500);
  EXPECT_EQ(parse_decimal("-0")->thousandths, 0);
  EXPECT_EQ(parse_decimal("999999999999.999")->thousandths, kDecimalThousandthsMax);
}

TEST(Decimal, RefusesAFourthPlaceExponentsAndAnythingElse) {
  for (const char* token : {"1.0000", "1e3", "1E3", ".5", "5.", "+5", "01", "", "-", "1.2.3", "NaN",
                            "Infinity", "0x10", " 1", "1 ", "1,5", "1000000000000"}) {
    EXPECT_FALSE(parse_decimal(token).ok()) << token;
  }
}

TEST(Decimal, PrintsTheShortestForm) {
  EXPECT_EQ(format_decimal({62'000}), "62");
  EXPECT_EQ(format_decimal({500}), "0.5");
  EXPECT_EQ(format_decimal({-25}), "-0.025");
  EXPECT_EQ(format_decimal({0}), "0");
}

TEST(Decimal, PrintsWhatItReadForRandomValues) {
  constexpr unsigned kSeed = 20261125;
  std::mt19937_64 random(kSeed);
  std::uniform_int_distribution<std::int64_t> any(-kDecimalThousandthsMax, kDecimalThousandthsMax);
  for (int i = 0; i < 20'000; ++i) {
    const Decimal value{any(random)};
    ASSERT_EQ(*parse_decimal(format_decimal(value)), value) << "seed " << kSeed;
  }
}

TEST(Decimal, RoundsTiesAwayFromZero) {
  EXPECT_EQ(divide_round_half_away(5, 10), 1);
  EXPECT_EQ(divide_round_half_away(-5, 10), -1);
  EXPECT_EQ(divide_round_half_away(4, 10), 0);
  EXPECT_EQ(divide_round_half_away(-14, 10), -1);
  EXPECT_EQ(divide_round_half_away(7, 7), 1);
  EXPECT_EQ(divide_round_half_away(1, 3), 0);
  EXPECT_EQ(divide_round_half_away(2, 3), 1);
}

}  // namespace
}  // namespace benchwarden::base
