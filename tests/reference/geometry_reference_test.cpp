#include <gtest/gtest.h>

#include "calculations/vessel.h"
#include "reference/table.h"

namespace benchwarden::calculations {
namespace {

using quantities::litres_of;
using quantities::metres;
using quantities::millimetres;

double lying_share(double height_over_diameter) {
  const auto part = lying_volume(metres(1), metres(1), metres(height_over_diameter));
  const auto full = lying_volume(metres(1), metres(1), metres(1));
  return *part / *full;
}

TEST(GeometryReference, ShareOfALyingCylinder) {
  testing::Deviation deviation("share of a lying cylinder");
  for (const testing::Row& row : testing::read_table("horizontal_cylinder_fraction")) {
    const double share = lying_share(row.number("h_over_D"));
    EXPECT_NEAR(share, row.number("fraction"), 6e-9);
    deviation.of(share, row.number("fraction"));
  }
}

// E. F. Megyesy, Pressure Vessel Handbook, 11th edition, page 419.
TEST(GeometryReference, PressureVesselHandbook) {
  testing::Deviation deviation("Pressure Vessel Handbook");
  EXPECT_LT(deviation.of(lying_share(0.781), 0.837934), 1e-6);
}

// Machinery's Handbook, 31st edition, page 74: a tank 6 ft in diameter and 20 ft long holds 4230
// US gallons and 1000 gallons stand 20.61 in deep.
TEST(GeometryReference, MachinerysHandbook) {
  constexpr double kFoot = 0.3048;
  constexpr double kGallon = 3.785411784;
  const auto diameter = metres(6 * kFoot);
  const auto length = metres(20 * kFoot);
  const auto full = lying_volume(diameter, length, diameter);
  ASSERT_TRUE(full.ok());
  EXPECT_NEAR(litres_of(*full) / kGallon, 4230, 0.5);
  const auto height = lying_height(diameter, length, quantities::litres(1000 * kGallon));
  ASSERT_TRUE(height.ok());
  EXPECT_NEAR(height->si() / 0.0254, 20.61, 5e-3);
}

// A drum maker's page: 22.5 in inside diameter, 33.5 in high, 13 320 cubic inches.
TEST(GeometryReference, UprightDrum) {
  const auto volume =
      upright_volume(metres(22.5 * 0.0254), metres(33.5 * 0.0254), metres(33.5 * 0.0254));
  ASSERT_TRUE(volume.ok());
  EXPECT_NEAR(litres_of(*volume) / 0.016387064, 13320, 0.5);
}

// Fritsch and Carlson's data set RPN 14 (SIAM J. Numer. Anal. 17 (1980) 238; from memory): flat,
// then steep. A plain cubic swings below zero there; ours must not fall anywhere.
TEST(GeometryReference, StrappingTableOfTheMonotoneInterpolation) {
  const auto table = StrappingTable::make(
      {7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20},
      {0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994});
  ASSERT_TRUE(table.ok());
  double before = 0;
  for (double height = 7.99; height <= 20; height += 0.01) {
    const auto volume = table->volume_at(millimetres(height));
    ASSERT_TRUE(volume.ok());
    EXPECT_GE(litres_of(*volume), before - 1e-15);
    EXPECT_LE(litres_of(*volume), 0.999994 + 1e-12);
    before = litres_of(*volume);
  }
}

}  // namespace
}  // namespace benchwarden::calculations
