#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <stdexcept>

#include "quantities/converted.h"
#include "quantities/read_amount.h"
#include "reference/table.h"

namespace benchwarden::quantities {
namespace {

/// GNU units' names for ours.
const Unit& unit_of(const std::string& name) {
  static const std::map<std::string, std::string> kNames{{"gal_US", "gal_us"},
                                                         {"gal_UK", "gal_imp"},
                                                         {"fl_oz_US", "fl_oz_us"},
                                                         {"fl_oz_UK", "fl_oz_imp"},
                                                         {"qt_US", "qt_us"},
                                                         {"pt_UK", "pt_imp"},
                                                         {"bbl_oil(42 gal_US)", "bbl"},
                                                         {"short_ton", "ton_us"},
                                                         {"lb/gal_US", "lb_gal_us"},
                                                         {"inHg", "in_hg"},
                                                         {"degC", "c"},
                                                         {"degF", "f"}};
  const auto found = kNames.find(name);
  const Unit* unit = found == kNames.end() ? unit_as_written(name) : find_unit(found->second);
  if (unit == nullptr) throw std::runtime_error("no unit " + name);
  return *unit;
}

// NIST SP 811 (2008), appendix B.8: mbar 1.0E+02 Pa, mmHg (conventional) 1.333 224 E+02 Pa.
TEST(UnitsReference, PressuresOfAirAndVapour) {
  const Unit& kilopascal = unit_of("kpa");
  EXPECT_DOUBLE_EQ(converted(1013.25, unit_of("mbar"), kilopascal), 101.325);
  EXPECT_DOUBLE_EQ(converted(1013.25, unit_of("hPa"), kilopascal), 101.325);
  EXPECT_NEAR(converted(1, unit_of("mmHg"), kilopascal), 0.1333224, 5e-8);
  EXPECT_NEAR(converted(760, unit_of("mmHg abs."), unit_of("kpa_abs")), 101.325, 2e-5);
}

TEST(UnitsReference, GnuUnits) {
  testing::Deviation deviation("GNU units");
  int compared = 0;
  for (const testing::Row& row : testing::read_table("units_reference")) {
    std::string from = row.text("from");
    double value = 1;
    if (row.text("kind") == "affine") {
      const std::size_t bracket = from.find('(');
      value = std::stod(from.substr(bracket + 1));
      from.resize(bracket);
    }
    const double found = converted(value, unit_of(from), unit_of(row.text("to")));
    const double expected = row.number("value_of_1_from_in_to");
    const double digits = std::abs(expected) < 1 ? 1 : std::abs(expected);
    EXPECT_LT(std::abs(found - expected) / digits, 6e-12) << from << " in " << row.text("to");
    deviation.of(found, expected);
    ++compared;
  }
  EXPECT_EQ(compared, 64);
}

}  // namespace
}  // namespace benchwarden::quantities
