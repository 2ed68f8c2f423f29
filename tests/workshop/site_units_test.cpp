#include "workshop/site_units.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/finding_wording.h"

namespace benchwarden::workshop {
namespace {

using findings::Shown;
using findings::Values;
using ::testing::ElementsAre;
using ::testing::Pair;

const ShownIn kUs{"us", "point"};
const ShownIn kUsComma{"us", "comma"};

TEST(SiteUnits, LeaveAMetricWorkshopItsNumbers) {
  const Values values{{"measured", {"1.5", "l"}}, {"day", {"2026-11-25", ""}}};
  EXPECT_EQ(in_site_units(values, {}), values);
}

// GNU units 2.22: 0.817 kg = 1.80118 lb, 0.259 kg = 0.570997 lb, 7 bar = 101.526 psi.
TEST(SiteUnits, WriteAmountsInUsUnitsWithThreeDigitsOfTheLeast) {
  const Values values{{"measured", {"0.817", "kg"}},
                      {"explained", {"0.259", "kg"}},
                      {"limit", {"7", "bar"}},
                      {"days", {"12", "d"}},
                      {"oxygen", {"16.4", "percent"}}};
  EXPECT_THAT(
      in_site_units(values, kUs),
      ElementsAre(Pair("measured", Shown{"1.801", "lb"}), Pair("explained", Shown{"0.571", "lb"}),
                  Pair("limit", Shown{"102", "psi"}), Pair("days", Shown{"12", "d"}),
                  Pair("oxygen", Shown{"16.4", "percent"})));
}

// 1000.01 kg are beyond 1000 kg, and stay so in pounds (2204.6447 and 2204.6226).
TEST(SiteUnits, KeepWhatIsBeyondALimitBeyondIt) {
  const Values values{{"measured", {"1000.01", "kg"}}, {"limit", {"1000", "kg"}}};
  EXPECT_THAT(in_site_units(values, kUs), ElementsAre(Pair("measured", Shown{"2204.64", "lb"}),
                                                      Pair("limit", Shown{"2204.62", "lb"})));
}

TEST(SiteUnits, ConvertTemperaturesWithTheirZeroAndLeaveNoMinusOfNothing) {
  EXPECT_THAT(in_site_units({{"flash", {"23", "c"}}, {"none", {"-0", "l"}}}, kUs),
              ElementsAre(Pair("flash", Shown{"73.4", "f"}), Pair("none", Shown{"0", "gal_us"})));
}

TEST(SiteUnits, StandInTheSentenceOfAFinding) {
  const auto wording =
      FindingWording::load({"findings.toml",
                            "full = \"{name}: {measured} of {limit}, {days}, by {day}\"\n"
                            "[units]\nd = \"days\"\n"});
  ASSERT_TRUE(wording);
  const Values values{{"measured", {"204.5", "l"}},
                      {"limit", {"184.5", "l"}},
                      {"days", {"1.5", "d"}},
                      {"day", {"2026-11-25", ""}}};
  const auto said = [&](const ShownIn& shown_in) {
    return wording->sentence("full", "Dr. Drum", values, shown_in);
  };
  EXPECT_EQ(said({}), "Dr. Drum: 204.5\u00A0L of 184.5\u00A0L, 1.5\u00A0days, by 2026-11-25");
  EXPECT_EQ(said({"metric", "comma"}),
            "Dr. Drum: 204,5\u00A0L of 184,5\u00A0L, 1,5\u00A0days, by 2026-11-25");
  EXPECT_EQ(said(kUsComma),
            "Dr. Drum: 54\u00A0US gal of 48,7\u00A0US gal, 1,5\u00A0days, by 2026-11-25");
}

}  // namespace
}  // namespace benchwarden::workshop
