#include <gtest/gtest.h>

#include "calculations/nitrogen_content.h"
#include "calculations/nitrogen_loss.h"
#include "calculations/nitrogen_state.h"
#include "reference/table.h"

namespace benchwarden::calculations {
namespace {

using quantities::bar_gauge;
using quantities::celsius;
using quantities::kelvin;
using quantities::litres;
using quantities::megapascals_absolute;

TEST(NitrogenReference, DensityAndCompressibilityOfTheTable) {
  testing::Deviation density("nitrogen density");
  testing::Deviation compressibility("nitrogen compressibility");
  for (const testing::Row& row : testing::read_table("nitrogen_reference")) {
    const auto state =
        nitrogen_state(kelvin(row.number("T_K")), megapascals_absolute(row.number("p_MPa")));
    ASSERT_TRUE(state.ok());
    EXPECT_LT(density.of(state->density.si(), row.number("density_kg_m3")), 1e-6);
    EXPECT_LT(compressibility.of(state->compressibility, row.number("Z")), 1e-6);
  }
}

// Points of Span et al. (2000) as an open property library quotes them: K, MPa, mol/dm³ to five
// digits. They lie outside the range of the calculation and test the equation itself.
TEST(NitrogenReference, PublishedPointsOfTheEquation) {
  struct Point {
    double kelvins, megapascals, mol_per_dm3;
  };
  constexpr double kMolarMass = 28.01348;
  testing::Deviation deviation("published nitrogen points, as pressure");
  for (const Point& point : {Point{350, 20, 6.3552}, Point{1000, 2, 0.23889},
                             Point{1000, 50, 5.1051}, Point{80, 0.1, 0.15633}}) {
    const auto pressure = nitrogen_pressure(kelvin(point.kelvins),
                                            quantities::Density(point.mol_per_dm3 * kMolarMass));
    EXPECT_LT(deviation.of(pressure.si() / 1e6, point.megapascals), 5e-5);
  }
}

// COMPUTED for this project with another program (CoolProp 4.2.6 for the densities); the spread
// agrees with a Monte Carlo run of 4000 draws (mean -0.1115 kg, standard deviation 0.048 kg).
TEST(NitrogenReference, LossBetweenTwoChecks) {
  const auto reading = [](double bar, double degrees) {
    return CylinderReading{absolute(bar_gauge(bar), quantities::bar_absolute(1.01325)),
                           celsius(degrees), quantities::bar_absolute(0.5),
                           quantities::Temperature(0.5)};
  };
  const auto loss = nitrogen_loss(litres(50), 0.005, reading(200, 20), reading(190, 12),
                                  quantities::Mass(0), quantities::Mass(0.1));
  ASSERT_TRUE(loss.ok());
  EXPECT_NEAR(loss->first.si(), 10.974872, 5e-7);
  EXPECT_NEAR(loss->second.si(), 10.863853, 5e-7);
  EXPECT_NEAR(loss->loss.si(), 0.111019, 5e-7);
  EXPECT_NEAR(loss->expanded_uncertainty.si(), 0.09471, 5e-6);
  testing::Deviation deviation("nitrogen lost, and its uncertainty");
  deviation.of(loss->loss.si(), 0.111019);
  deviation.of(loss->expanded_uncertainty.si(), 0.09471);
  EXPECT_EQ(loss->verdict, LossVerdict::kLossBeyondUncertainty);
}

// COMPUTED with CoolProp 4.2.6: what the gauge shows at 12 °C when nothing has left.
TEST(NitrogenReference, PressureOfTheSameGasAtAnotherTemperature) {
  const auto mass = nitrogen_mass(litres(50), quantities::bar_absolute(201.01325), celsius(20));
  ASSERT_TRUE(mass.ok());
  const auto pressure = nitrogen_pressure_in(*mass, litres(50), celsius(12));
  ASSERT_TRUE(pressure.ok());
  EXPECT_NEAR(quantities::bar_absolute_of(*pressure) - 1.01325, 192.248, 5e-4);
}

// From the densities of the table at 293.15 K: 218.5443474 kg/m³ at 20 MPa, 31.8761456 at 2.76 MPa
// and 1.1495944 at 0.1 MPa.
TEST(NitrogenReference, ChargesByTheDensitiesOfTheTable) {
  const auto left = charges_left(litres(10), bar_gauge(199), {litres(0.2), bar_gauge(26.6)},
                                 celsius(20), quantities::bar_absolute(1));
  ASSERT_TRUE(left.ok());
  testing::Deviation deviation("gas of the charges");
  EXPECT_LT(deviation.of(left->usable.si(), 1.866682018), 1e-7);
  EXPECT_LT(deviation.of(left->per_charge.si(), 0.00614531024), 1e-7);
  EXPECT_EQ(left->count, 303);
}

}  // namespace
}  // namespace benchwarden::calculations
