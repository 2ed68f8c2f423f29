#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "calculations/due_date.h"
#include "calculations/fill_forecast.h"
#include "calculations/gauge_drift.h"
#include "calculations/line_fit.h"
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

TEST(Properties, OilDensitiesOfEveryGroupReturn) {
  struct Range {
    OilGroup group;
    double low, high;
  };
  for (const Range& range :
       {Range{OilGroup::kLubricatingOil, 801, 1163}, Range{OilGroup::kCrudeOil, 611, 1163},
        Range{OilGroup::kFuelOil, 838.4, 1163}, Range{OilGroup::kJetFuel, 787.6, 838.3},
        Range{OilGroup::kTransition, 770.4, 787.5}, Range{OilGroup::kGasoline, 610.7, 770.3}}) {
    for (double part = 0; part <= 1; part += 0.125) {
      const double density_60f = range.low + part * (range.high - range.low);
      for (double degrees = -50; degrees <= 150; degrees += 10) {
        const double fahrenheit = degrees * 1.8 + 32;
        const auto there =
            oil_correction_60f(range.group, quantities::Density(density_60f), fahrenheit, 0);
        const auto base = oil_correction_60f(range.group, quantities::Density(density_60f), 59, 0);
        ASSERT_TRUE(there.ok() && base.ok());
        const auto found = oil_density_15c(
            range.group, quantities::Density(density_60f * there->thermal), celsius(degrees));
        ASSERT_TRUE(found.ok()) << density_60f << " " << degrees;
        EXPECT_NEAR(found->si(), density_60f * base->thermal, 1e-7)
            << density_60f << " " << degrees;
      }
    }
  }
}

TEST(Properties, AnOilOutsideItsGroupIsRefusedWithWhatTheGroupHasThere) {
  const auto found =
      oil_density_15c(OilGroup::kLubricatingOil, quantities::Density(700), celsius(15));
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.error().name, "density_kg_m3");
  EXPECT_NEAR(found.error().low, 801.2, 0.2);
}

TEST(Properties, TheUncertaintyOfALossDoesNotShrinkAtTheEndsOfTheRange) {
  const auto uncertainty = [](double bar, double degrees) {
    const CylinderReading reading{bar_absolute(bar), celsius(degrees), bar_absolute(0.2),
                                  quantities::Temperature(1)};
    return nitrogen_loss(litres(50), 0, reading, reading, Mass(0), Mass(1))
        ->expanded_uncertainty.si();
  };
  EXPECT_NEAR(uncertainty(200, -20) / uncertainty(200, -18), 1, 0.03);
  EXPECT_NEAR(uncertainty(200, 50) / uncertainty(200, 48), 1, 0.03);
  EXPECT_NEAR(uncertainty(350, 20) / uncertainty(349, 20), 1, 0.03);
}

TEST(Properties, AGaugeIsWatchedOnBothSides) {
  const std::vector<double> years{0, 1, 2, 3, 4, 5};
  const auto falling =
      gauge_drift(years, std::vector<double>{-2.3, -2.45, -2.2, -2.4, -2.25, -2.3}, 2.5);
  ASSERT_TRUE(falling.ok() && falling->earliest);
  EXPECT_EQ(*falling->earliest, 5) << "the lower bound is beyond it by now";
  const auto steady =
      gauge_drift(std::vector<double>{0, 1, 2, 3}, std::vector<double>{2.6, 2.5, 2.4, 2.0}, 2.5);
  ASSERT_TRUE(steady.ok() && steady->earliest);
  EXPECT_EQ(*steady->earliest, 3);
}

TEST(Properties, NoLineThroughOneX) {
  for (const double x : {0.1, 0.7, 2026.1}) {
    const auto fit = fit_line(std::vector<double>{x, x, x}, std::vector<double>{1, 2, 3});
    ASSERT_FALSE(fit.ok()) << x;
    EXPECT_EQ(fit.error().code, RefusalCode::kNoSolution);
  }
}

TEST(Properties, AForecastTakesNoDaysTooSmallToSquare) {
  const auto found = fill_forecast(std::vector<double>(28, 1e-200), 40);
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.error().name, "daily_l");
  EXPECT_TRUE(fill_forecast(std::vector<double>(28, 1e-6), 1e6).ok());
}

TEST(Properties, ALyingCylinderHoldsNothingBelowNothingAndIsFullWhenFull) {
  for (double height = 0; height < 1e-9; height += 3e-11) {
    EXPECT_GE(lying_volume(metres(20), metres(20), metres(height))->si(), 0);
  }
  for (double diameter = 0.3; diameter < 1; diameter += 0.0137) {
    const auto full = lying_volume(metres(diameter), metres(0.9), metres(diameter));
    const auto typed = litres(quantities::litres_of(*full));
    const auto height = lying_height(metres(diameter), metres(0.9), typed);
    ASSERT_TRUE(height.ok()) << diameter;
    EXPECT_NEAR(height->si(), diameter, 1e-6);
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
