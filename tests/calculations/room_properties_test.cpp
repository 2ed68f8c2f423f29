// Oxygen and vapour of a room: which way they move, and that each question is the inverse of the
// other.

#include <gtest/gtest.h>

#include "calculations/oxygen.h"
#include "calculations/vapour.h"

namespace benchwarden::calculations {
namespace {

using quantities::bar_absolute;
using quantities::celsius;
using quantities::cubic_metres;
using quantities::kilograms;

constexpr double kBaseline = 20.9;

TEST(RoomProperties, OxygenFallsAsGasGrowsAndNeverBelowNothing) {
  double before = 101;
  for (double gas = 0; gas < 62; gas += 0.5) {
    const auto oxygen = oxygen_after_release(cubic_metres(62), cubic_metres(gas), kBaseline);
    ASSERT_TRUE(oxygen.ok());
    EXPECT_LT(*oxygen, before) << gas;
    before = *oxygen;
  }
  EXPECT_EQ(*oxygen_after_release(cubic_metres(62), cubic_metres(0), kBaseline), kBaseline);
  EXPECT_EQ(*oxygen_after_release(cubic_metres(62), cubic_metres(500), kBaseline), 0);
}

TEST(RoomProperties, TheSmallestRoomIsLeftAtItsLevel) {
  for (double level = 0; level < kBaseline; level += 0.7) {
    const auto room = smallest_air_volume(cubic_metres(9.4), level, kBaseline);
    ASSERT_TRUE(room.ok());
    EXPECT_NEAR(*oxygen_after_release(*room, cubic_metres(9.4), kBaseline), level, 1e-9);
  }
  EXPECT_FALSE(smallest_air_volume(cubic_metres(9.4), kBaseline, kBaseline).ok());
}

TEST(RoomProperties, TheNeededAirChangesHoldTheirLevel) {
  for (double leak = 0.1; leak < 50; leak *= 1.7) {
    const auto changes = air_changes_for(cubic_metres(62), leak, 19.5, kBaseline);
    ASSERT_TRUE(changes.ok());
    const auto held = oxygen_at_steady_leak(cubic_metres(62), leak, *changes, kBaseline);
    EXPECT_NEAR(*held, 19.5, 1e-9) << leak;
    const auto less = oxygen_at_steady_leak(cubic_metres(62), leak, *changes / 2, kBaseline);
    EXPECT_LT(*less, *held) << leak;
  }
}

TEST(RoomProperties, VapourRisesWithTheSpillUpToSaturation) {
  const Solvent solvent{60.1, 2.0, 4.4};
  double before = -1;
  for (double mass = 0; mass < 20; mass += 0.25) {
    const auto vapour = spill_vapour(cubic_metres(30), kilograms(mass), solvent, celsius(20),
                                     bar_absolute(1.01325));
    ASSERT_TRUE(vapour.ok());
    EXPECT_GE(vapour->concentration_percent, before);
    EXPECT_LE(vapour->concentration_percent, *vapour->saturation_percent);
    EXPECT_NEAR(vapour->share_of_lower_limit, vapour->concentration_percent / 2.0, 1e-12);
    before = vapour->concentration_percent;
  }
  EXPECT_NEAR(before, 100 * 4.4 / 101.325, 1e-9);  // far beyond what the air can hold
}

}  // namespace
}  // namespace benchwarden::calculations
