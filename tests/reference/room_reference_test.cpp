#include <gtest/gtest.h>

#include <cmath>

#include "calculations/nitrogen_content.h"
#include "calculations/oxygen.h"
#include "calculations/stored_energy.h"
#include "calculations/vapour.h"
#include "reference/table.h"

namespace benchwarden::calculations {
namespace {

using quantities::bar_absolute;
using quantities::celsius;
using quantities::cubic_metres;
using quantities::litres;

// University of Oxford, safety policy S4/03, appendix 1, with a cylinder whose label says 10.78 m³.
TEST(RoomReference, OxygenAfterAFullRelease) {
  struct Case {
    double room_m3, percent;
  };
  testing::Deviation deviation("oxygen after a release");
  for (const Case& one :
       {Case{50, 16.47}, Case{100, 18.74}, Case{150, 19.49}, Case{151, 19.50}, Case{200, 19.87}}) {
    const auto oxygen = oxygen_after_release(cubic_metres(one.room_m3), cubic_metres(10.78), 21.0);
    ASSERT_TRUE(oxygen.ok());
    EXPECT_NEAR(*oxygen, one.percent, 0.0051);
    deviation.of(*oxygen, one.percent);
  }
  const auto room = smallest_air_volume(cubic_metres(10.78), 19.5, 21.0);
  ASSERT_TRUE(room.ok());
  EXPECT_NEAR(room->si(), 150.92, 5e-3);
}

// COMPUTED with CoolProp 4.2.6 for the gas: 50 L at 200 bar and 20 °C, baseline 20.95 %.
TEST(RoomReference, OxygenFromACylinder) {
  const auto mass = nitrogen_mass(litres(50), bar_absolute(201.01325), celsius(20));
  ASSERT_TRUE(mass.ok());
  const auto gas = nitrogen_volume(*mass, {celsius(20), bar_absolute(1.01325)});
  ASSERT_TRUE(gas.ok());
  testing::Deviation deviation("gas of a cylinder at room conditions");
  EXPECT_LT(deviation.of(gas->si(), 9.422), 5e-5);
  struct Case {
    double room_m3, percent;
  };
  for (const Case& one : {Case{40, 16.02}, Case{60, 17.66}, Case{100, 18.98}, Case{150, 19.63}}) {
    EXPECT_NEAR(*oxygen_after_release(cubic_metres(one.room_m3), *gas, 20.95), one.percent, 5.1e-3);
  }
  EXPECT_NEAR(smallest_air_volume(*gas, 19.5, 20.95)->si(), 136.1, 0.05);
  EXPECT_NEAR(smallest_air_volume(*gas, 18, 20.95)->si(), 66.9, 0.05);
}

// The university method n = N V (1 - Cf / 0.21), solved both ways.
TEST(RoomReference, SteadyLeakAndVentilation) {
  const auto oxygen = oxygen_at_steady_leak(cubic_metres(60), 3, 0.5, 21);
  ASSERT_TRUE(oxygen.ok());
  EXPECT_NEAR(0.5 * 60 * (1 - *oxygen / 21), 3, 1e-12);
  EXPECT_NEAR(*air_changes_for(cubic_metres(60), 3, *oxygen, 21), 0.5, 1e-12);
}

// COMPUTED for this project from the formulas of the sources, in another program.
TEST(RoomReference, StoredEnergy) {
  struct Case {
    double litres, gauge_bar, brode_j, isentropic_j, isothermal_j;
  };
  testing::Deviation of_brode("Brode's energy");
  testing::Deviation of_isentropic("isentropic energy");
  testing::Deviation of_isothermal("isothermal energy");
  for (const Case& one :
       {Case{50, 200, 2.500e6, 1.95842e6, 5.317e6}, Case{50, 300, 3.750e6, 3.02313e6, 8.570e6},
        Case{10, 200, 0.500e6, 0.391684e6, 1.0634e6}, Case{0.2, 17, 850, 504.9, 1037}}) {
    const auto pressure = bar_absolute(one.gauge_bar + 1.01325);
    const auto brode = brode_energy(litres(one.litres), pressure, bar_absolute(1.01325));
    const auto isentropic = isentropic_energy(litres(one.litres), pressure, bar_absolute(1.01325));
    const auto isothermal = isothermal_energy(litres(one.litres), pressure, bar_absolute(1.01325));
    ASSERT_TRUE(brode.ok() && isentropic.ok() && isothermal.ok());
    EXPECT_LT(of_isothermal.of(isothermal->si(), one.isothermal_j), 5e-4);
    EXPECT_LT(of_brode.of(brode->si(), one.brode_j), 1e-9);
    EXPECT_LT(of_isentropic.of(isentropic->si(), one.isentropic_j), 1e-4);
  }
}

// ASME PCC-2, article 501 (2008): E = 2.5 Pt V [1 - (Pa / Pt)^0.286] for air and nitrogen, with the
// exponent rounded and Pa = 101 kPa.
TEST(RoomReference, StoredEnergyAgainstTheRoundedForm) {
  for (const double bar : {2.0, 28.0, 200.0}) {
    const double pascals = bar * 1e5 + 101000;
    const double rounded = 2.5 * pascals * 0.05 * (1 - std::pow(101000 / pascals, 0.286));
    const auto energy = isentropic_energy(litres(50), quantities::AbsolutePressure(pascals),
                                          quantities::AbsolutePressure(101000));
    ASSERT_TRUE(energy.ok());
    EXPECT_NEAR(energy->si() / rounded, 1, 2e-3);
  }
}

// NIOSH Pocket Guide, isopropyl alcohol: 1 ppm = 2.46 mg/m³ (25 °C, 1 atm), LEL 2.0 %.
TEST(RoomReference, PartsPerMillionOfIsopropanol) {
  const Solvent isopropanol{60.1, 2.0};
  const auto found = spill_vapour(cubic_metres(1), quantities::kilograms(2.46e-6), isopropanol,
                                  celsius(25), bar_absolute(1.01325));
  ASSERT_TRUE(found.ok());
  testing::Deviation deviation("ppm of isopropanol");
  EXPECT_LT(deviation.of(found->concentration_percent * 1e4, 1), 2e-3);
}

// COMPUTED for this project: 250 mL in 30 m³ at 20 °C.
TEST(RoomReference, SpillOfIsopropanol) {
  const Solvent isopropanol{60.1, 2.0};
  const auto mass = quantities::kilograms_per_cubic_metre(785.5) * litres(0.25);
  const auto found =
      spill_vapour(cubic_metres(30), mass, isopropanol, celsius(20), bar_absolute(1.01325));
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->vapour.si(), 0.0786, 5e-5);
  EXPECT_NEAR(found->concentration_percent, 0.262, 5e-4);
  EXPECT_NEAR(found->share_of_lower_limit, 0.131, 5e-4);
}

// 29 CFR 1910.106(a)(19).
TEST(RoomReference, CategoriesByFlashPoint) {
  using enum FlashPointCategory;
  struct Case {
    double flash_c, boiling_c;
    FlashPointCategory osha, clp;
  };
  for (const Case& one :
       {Case{12, 82, k2, k2}, Case{22.9, 35, k1, k1}, Case{23, 100, k3, k3}, Case{60, 150, k3, k3},
        Case{60.1, 200, k4, kNone}, Case{93, 250, k4, kNone}, Case{93.1, 250, kNone, kNone}}) {
    EXPECT_EQ(osha_category(celsius(one.flash_c), celsius(one.boiling_c)), one.osha);
    EXPECT_EQ(clp_category(celsius(one.flash_c), celsius(one.boiling_c)), one.clp);
  }
}

}  // namespace
}  // namespace benchwarden::calculations
