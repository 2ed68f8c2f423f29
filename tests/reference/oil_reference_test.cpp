#include <gtest/gtest.h>

#include <cmath>

#include "calculations/oil_volume.h"
#include "reference/table.h"

namespace benchwarden::calculations {
namespace {

using quantities::celsius;
using quantities::Density;

OilGroup group_of_example(const testing::Row& row) {
  const std::string& input = row.text("input_density");
  if (row.text("group") == "crude") return OilGroup::kCrudeOil;
  if (input.find("fuel oils") != std::string::npos) return OilGroup::kFuelOil;
  if (input.find("jet") != std::string::npos) return OilGroup::kJetFuel;
  if (input.find("transition") != std::string::npos) return OilGroup::kTransition;
  return OilGroup::kGasoline;
}

double rounded(double factor) { return std::round(factor * 1e5) / 1e5; }

TEST(OilReference, WorkedExamplesOfTheStandard) {
  testing::Deviation thermal("CTL of the worked examples");
  testing::Deviation compression("CPL of the worked examples");
  for (const testing::Row& row : testing::read_table("vcf_api_examples")) {
    SCOPED_TRACE(row.text("example"));
    const auto found = oil_correction_60f(group_of_example(row), Density(row.number("rho60_kg_m3")),
                                          row.number("temp_F"), row.number("press_psig"));
    ASSERT_TRUE(found.ok());
    EXPECT_LT(thermal.of(found->thermal, row.number("CTL")), 1e-11);
    EXPECT_LT(compression.of(found->compression, row.number("CPL")), 1e-11);
    EXPECT_NEAR(found->alpha60_per_f, row.number("alpha60_per_F"), 5e-13);
    EXPECT_NEAR(found->compressibility_per_psi * 1e5, row.number("Fp"), 1e-11);
    EXPECT_NEAR(rounded(found->thermal * found->compression), row.number("CTPL_rounded"), 1e-12);
  }
}

TEST(OilReference, LubricatingOilsToFivePlaces) {
  constexpr double kWaterDensity60f = 999.016;
  int rows = 0;
  for (const testing::Row& row : testing::read_table("vcf_60F_crosscheck")) {
    const Density density(141.5 / (131.5 + row.number("api60")) * kWaterDensity60f);
    const auto found =
        oil_correction_60f(OilGroup::kLubricatingOil, density, row.number("temp_F"), 0);
    ASSERT_TRUE(found.ok());
    EXPECT_NEAR(rounded(found->thermal), row.number("CTL_5dp"), 1e-12)
        << row.text("api60") << " " << row.text("temp_F");
    ++rows;
  }
  EXPECT_EQ(rows, 336);
}

TEST(OilReference, FactorsFromTheBaseOf15Degrees) {
  testing::Deviation deviation("VCF, 15 °C base");
  for (const testing::Row& row : testing::read_table("vcf_reference")) {
    const auto factor =
        oil_correction_15c(OilGroup::kLubricatingOil, Density(row.number("density15_kg_m3")),
                           celsius(row.number("temp_C")));
    ASSERT_TRUE(factor.ok());
    EXPECT_LT(deviation.of(*factor, row.number("VCF")), 6e-9);
  }
}

// The form of the standard of 1980 (table 54D): alpha = 0.6278 / density, one exponential. It
// agrees with that of 2004 within 5e-6 here.
TEST(OilReference, AgreesWithTheFormOf1980) {
  testing::Deviation deviation("VCF by the form of 1980");
  for (double density = 810; density <= 990; density += 30) {
    for (double degrees = -20; degrees <= 85; degrees += 15) {
      const double alpha = 0.6278 / density;
      const double away = degrees - 15;
      const double old = std::exp(-alpha * away * (1 + 0.8 * alpha * away));
      const auto factor =
          oil_correction_15c(OilGroup::kLubricatingOil, Density(density), celsius(degrees));
      ASSERT_TRUE(factor.ok());
      EXPECT_NEAR(*factor, old, 5e-6);
      deviation.of(*factor, old);
    }
  }
}

// COMPUTED for this project.
TEST(OilReference, DensityMeasuredWarm) {
  const auto density = oil_density_15c(OilGroup::kLubricatingOil, Density(858.0), celsius(35));
  ASSERT_TRUE(density.ok());
  testing::Deviation deviation("density measured warm");
  EXPECT_LT(deviation.of(density->si(), 870.6092), 6e-8);
}

}  // namespace
}  // namespace benchwarden::calculations
