#include "reports/number_text.h"

#include <gtest/gtest.h>

#include <limits>

namespace benchwarden::reports {
namespace {

TEST(NumberText, PutsNarrowSpacesBetweenThousandsAndATrueMinus) {
  EXPECT_EQ(number_text(1'234'567'500'000, 3), "1\u202F234\u202F567.500");
  EXPECT_EQ(number_text(999'000'000, 0), "999");
  EXPECT_EQ(number_text(1'000'000'000, 0), "1\u202F000");
  EXPECT_EQ(number_text(-62'000, 3), "\u22120.062");
  EXPECT_EQ(number_text(0, 3), "0.000");
  EXPECT_EQ(count_text(12'345), "12\u202F345");
}

TEST(NumberText, IsPlainForMachines) {
  EXPECT_EQ(plain_number(1'234'567'500'000, 3), "1234567.500");
  EXPECT_EQ(plain_number(-62'000, 3), "-0.062");
  EXPECT_EQ(plain_number(5, 6), "0.000005");
  EXPECT_EQ(plain_number(7'000'000, 0), "7");
  EXPECT_EQ(plain_number(std::numeric_limits<std::int64_t>::min(), 6), "-9223372036854.775808");
}

TEST(NumberText, NeedsThePlacesThatPrintItExactly) {
  EXPECT_EQ(places_needed(62'000, 3), 3);
  EXPECT_EQ(places_needed(62'500, 3), 4);
  EXPECT_EQ(places_needed(1, 3), 6);
  EXPECT_EQ(places_needed(0, 3), 3);
  EXPECT_EQ(places_needed(3'000'000, 0), 0);
  EXPECT_EQ(places_needed(-1'500'000, 0), 1);
}

TEST(NumberText, RoundsToTheThousandthTiesAwayFromZero) {
  EXPECT_EQ(to_thousandth(480'499), 480'000);
  EXPECT_EQ(to_thousandth(480'500), 481'000);
  EXPECT_EQ(to_thousandth(-480'500), -481'000);
}

TEST(NumberTextDeathTest, RefusesToDropADigit) {
  EXPECT_DEATH(number_text(62'500, 3), "find_first_not_of");
}

}  // namespace
}  // namespace benchwarden::reports
