#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "calculations/due_date.h"
#include "calculations/nitrogen_content.h"
#include "calculations/nitrogen_loss.h"
#include "calculations/nitrogen_state.h"
#include "calculations/oil_volume.h"
#include "calculations/reconcile.h"
#include "calculations/statistics.h"
#include "calculations/stored_energy.h"
#include "calculations/vessel.h"

namespace benchwarden::calculations {
namespace {

using quantities::bar_absolute;
using quantities::celsius;
using quantities::litres;
using quantities::Mass;
using quantities::metres;

TEST(Properties, NitrogenContentRisesWithPressureAndFallsWithTemperature) {
  for (double degrees = -20; degrees <= 50; degrees += 5) {
    Mass before(-1);
    for (double bar = 0; bar <= 350; bar += 2.5) {
      const auto mass = nitrogen_mass(litres(50), bar_absolute(bar), celsius(degrees));
      ASSERT_TRUE(mass.ok());
      EXPECT_GT(*mass, before) << bar << " bar, " << degrees << " °C";
      before = *mass;
      if (degrees >= 50 || bar <= 0) continue;
      const auto warmer = nitrogen_mass(litres(50), bar_absolute(bar), celsius(degrees + 1));
      EXPECT_LT(*warmer, *mass);
    }
  }
}

TEST(Properties, NitrogenPressureIsTheInverseOfItsContent) {
  for (double degrees = -20; degrees <= 50; degrees += 7) {
    for (double bar = 1; bar <= 340; bar += 11) {
      const auto mass = nitrogen_mass(litres(20), bar_absolute(bar), celsius(degrees));
      const auto pressure = nitrogen_pressure_in(*mass, litres(20), celsius(degrees));
      ASSERT_TRUE(pressure.ok());
      EXPECT_NEAR(quantities::bar_absolute_of(*pressure) / bar, 1, 1e-9);
    }
  }
}

TEST(Properties, NitrogenIsRefusedOutsideTheRangeOfTheEquation) {
  EXPECT_FALSE(nitrogen_state(celsius(-21), bar_absolute(10)).ok());
  EXPECT_FALSE(nitrogen_state(celsius(51), bar_absolute(10)).ok());
  EXPECT_FALSE(nitrogen_state(celsius(20), bar_absolute(350.1)).ok());
  EXPECT_FALSE(nitrogen_state(celsius(20), bar_absolute(-0.1)).ok());
  EXPECT_EQ(nitrogen_state(celsius(20), bar_absolute(0))->density.si(), 0);
}

TEST(Properties, TheThreeVerdictsOfALoss) {
  const auto reading = [](double bar) {
    return CylinderReading{bar_absolute(bar), celsius(20), bar_absolute(1),
                           quantities::Temperature(1)};
  };
  const auto verdict = [&](double second_bar, double interest_kg) {
    return nitrogen_loss(litres(50), 0, reading(150), reading(second_bar), Mass(0),
                         Mass(interest_kg))
        ->verdict;
  };
  EXPECT_EQ(verdict(140, 0.1), LossVerdict::kLossBeyondUncertainty);
  EXPECT_EQ(verdict(150, 0.5), LossVerdict::kNoEvidenceOfLoss);
  EXPECT_EQ(verdict(150, 0.01), LossVerdict::kCannotTell);
  EXPECT_EQ(verdict(160, 0.5), LossVerdict::kCannotTell);  // gas appeared
}

TEST(Properties, OilFactorAndItsInverse) {
  for (double density = 810; density <= 1100; density += 29) {
    for (double degrees = -40; degrees <= 140; degrees += 15) {
      const auto factor = oil_correction_15c(OilGroup::kLubricatingOil,
                                             quantities::Density(density), celsius(degrees));
      ASSERT_TRUE(factor.ok());
      const auto back = oil_density_15c(OilGroup::kLubricatingOil,
                                        quantities::Density(density * *factor), celsius(degrees));
      ASSERT_TRUE(back.ok());
      EXPECT_NEAR(back->si(), density, 1e-6);
    }
  }
}

TEST(Properties, HeightsReturnFromVolumes) {
  for (double height = 0; height <= 0.58; height += 0.01) {
    const auto lying = lying_volume(metres(0.58), metres(0.9), metres(height));
    EXPECT_NEAR(lying_height(metres(0.58), metres(0.9), *lying)->si(), height, 1e-9);
    const auto upright = upright_volume(metres(0.58), metres(0.9), metres(height));
    EXPECT_NEAR(upright_height(metres(0.58), metres(0.9), *upright)->si(), height, 1e-12);
  }
  const auto full = lying_volume(metres(0.58), metres(0.9), metres(0.58));
  EXPECT_NEAR(lying_height(metres(0.58), metres(0.9), *full)->si(), 0.58, 1e-12);
}

TEST(Properties, StrappingTableMeetsItsRowsAndReturnsHeights) {
  const auto table = StrappingTable::make({0, 100, 250, 400, 800}, {0, 20, 20, 110, 205});
  ASSERT_TRUE(table.ok());
  EXPECT_NEAR(quantities::litres_of(*table->volume_at(metres(0.25))), 20, 1e-12);
  for (double height = 0; height <= 0.8; height += 0.013) {
    const auto volume = table->volume_at(metres(height));
    ASSERT_TRUE(volume.ok());
    const auto back = table->height_of(*volume);
    ASSERT_TRUE(back.ok());
    EXPECT_NEAR(quantities::litres_of(*table->volume_at(*back)), quantities::litres_of(*volume),
                1e-9);
  }
  EXPECT_FALSE(table->volume_at(metres(0.81)).ok());
  EXPECT_FALSE(StrappingTable::make({0, 0}, {0, 1}).ok());
  EXPECT_FALSE(StrappingTable::make({0, 1}, {1, 0}).ok());
}

TEST(Properties, TotalsDoNotDependOnOrder) {
  std::mt19937 random(20261125);
  std::vector<double> values;
  for (int i = 0; i < 2000; ++i) values.push_back(static_cast<double>(random() % 5000) / 1000);
  const double total = sum(values);
  for (int round = 0; round < 20; ++round) {
    std::shuffle(values.begin(), values.end(), random);
    EXPECT_DOUBLE_EQ(sum(values), total);
  }
}

TEST(Properties, StoredEnergyRisesWithPressureAndWithVolume) {
  const auto atmosphere = bar_absolute(1.01325);
  quantities::Energy before(-1);
  for (double bar = 1.01325; bar <= 1000; bar += 7) {
    const auto energy = isentropic_energy(litres(50), bar_absolute(bar), atmosphere);
    const auto upper = brode_energy(litres(50), bar_absolute(bar), atmosphere);
    ASSERT_TRUE(energy.ok() && upper.ok()) << bar;
    EXPECT_GT(*energy, before) << bar;
    EXPECT_LE(*energy, *upper) << bar;
    const auto twice = isentropic_energy(litres(100), bar_absolute(bar), atmosphere);
    EXPECT_NEAR(twice->si(), 2 * energy->si(), 1e-9 * twice->si());
    before = *energy;
  }
  EXPECT_EQ(isentropic_energy(litres(50), atmosphere, atmosphere)->si(), 0);
  EXPECT_FALSE(isentropic_energy(litres(50), bar_absolute(1), atmosphere).ok());
}

TEST(Properties, AWeighedVolumeWeighsWhatItDid) {
  const Weighing weighing{Mass(120), Mass(18),  quantities::Density(870),
                          Mass(0.1), Mass(0.1), quantities::Density(0)};
  const auto found = volume_by_weighing(weighing);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR((found->volume.si() * 870) + 18, 120, 1e-12);
  EXPECT_NEAR(quantities::litres_of(found->uncertainty), std::sqrt(0.02) / 0.870, 1e-12);
}

TEST(Properties, AgreementOfLogAndReading) {
  const auto of = [](double log, double reading, double u, double interest) {
    return reconcile({litres(log), litres(u)}, {litres(reading), litres(u)}, litres(interest))
        ->agreement;
  };
  EXPECT_EQ(of(100, 100.5, 0.5, 2), Agreement::kWithinUncertainty);
  EXPECT_EQ(of(100, 90, 0.5, 2), Agreement::kBeyondUncertainty);
  EXPECT_EQ(of(100, 101, 2, 2), Agreement::kCannotTell);
  const auto best = reconcile({litres(100), litres(1)}, {litres(104), litres(3)}, litres(5))->best;
  EXPECT_NEAR(quantities::litres_of(best.volume), 100.4, 1e-9);  // nine parts to one
  EXPECT_NEAR(quantities::litres_of(best.uncertainty), std::sqrt(0.9), 1e-9);
}

TEST(Properties, OpenDaysPassOverClosedOnes) {
  OpeningDays days;
  days.open = {true, true, true, true, true, false, false};
  days.closed = {{2026, 12, 25}};
  EXPECT_EQ(next_open(days, {2026, 11, 28}), (base::CivilDate{2026, 11, 30}));  // from a Saturday
  EXPECT_EQ(add_open_days(days, {2026, 12, 24}, 1), (base::CivilDate{2026, 12, 28}));
  EXPECT_EQ(add_open_days(OpeningDays{}, {2026, 12, 24}, 1), std::nullopt);
  EXPECT_EQ(next_open(OpeningDays{}, {2026, 12, 24}), std::nullopt);
}

}  // namespace
}  // namespace benchwarden::calculations
