#include <gtest/gtest.h>

#include "calculations/due_date.h"

namespace benchwarden::calculations {
namespace {

using base::CivilDate;
using base::CivilMonth;

// EPR 2016, schedule 25 part 3 para 2: twelve calendar months, cut at the end of the month.
TEST(DatesReference, TwelveMonthsOfStorage) {
  EXPECT_EQ(add_months(CivilDate{2025, 11, 30}, 12), (CivilDate{2026, 11, 30}));
  EXPECT_EQ(add_months(CivilDate{2024, 2, 29}, 12), (CivilDate{2025, 2, 28}));
}

// 49 CFR 180.209(a), (b): five years, ten with a star; ADR P200: ten years.
TEST(DatesReference, TestStamps) {
  EXPECT_EQ(stamp_due({2021, 6}, 5), (CivilMonth{2026, 6}));
  EXPECT_EQ(stamp_due({2021, 6}, 10), (CivilMonth{2031, 6}));
  EXPECT_EQ(stamp_due({2017, 4}, 10), (CivilMonth{2027, 4}));
}

// 49 CFR 180.205(c): filled before its test was due, a cylinder may stay in service until it is
// empty.
TEST(DatesReference, StampPastItsMonth) {
  const CivilMonth due{2026, 6};
  EXPECT_EQ(stamp_state(due, {2026, 6, 30}, std::nullopt), StampState::kCurrent);
  EXPECT_EQ(stamp_state(due, {2026, 7, 15}, CivilDate{2026, 5, 10}), StampState::kEmptyThenTest);
  EXPECT_EQ(stamp_state(due, {2026, 7, 15}, CivilDate{2026, 7, 1}), StampState::kTestBeforeFill);
  EXPECT_EQ(stamp_state(due, {2026, 7, 15}, std::nullopt), StampState::kTestBeforeFill);
}

}  // namespace
}  // namespace benchwarden::calculations
