#include "quantities/read_amount.h"

#include <gtest/gtest.h>

namespace benchwarden::quantities {
namespace {

void reads(const char* text, double value, const char* unit) {
  const auto amount = read_amount(text);
  ASSERT_TRUE(amount.ok()) << text << ": " << amount.error().detail;
  EXPECT_EQ(amount->value, value) << text;
  EXPECT_EQ(amount->unit, unit == nullptr ? nullptr : find_unit(unit)) << text;
}

TEST(ReadAmount, WhatPeopleWrite) {
  reads("28 bar", 28, "bar");
  reads("400 psi", 400, "psi");
  reads("400psi", 400, "psi");
  reads("1,25 l", 1.25, "l");
  reads("1.25 L", 1.25, "l");
  reads("6 fl oz", 6, "fl_oz_us");
  reads("6 imp fl oz", 6, "fl_oz_imp");
  reads("6 uk fl oz", 6, "fl_oz_imp");
  reads(" -5 °C ", -5, "c");
  reads("+62 mL", 62, "ml");
  reads("35 MPa", 35, "mpa");
  reads("14.7 psia", 14.7, "psi_abs");
  reads("870 kg/m³", 870, "kg_m3");
  reads("20.9 %", 20.9, "percent");
  reads("0,125", 0.125, nullptr);
  reads("1e-3", 0.001, nullptr);
  reads(".5", 0.5, nullptr);
}

TEST(ReadAmount, RefusesWhatCanBeReadInTwoWays) {
  EXPECT_FALSE(read_amount("1,250 ml").ok());
  EXPECT_FALSE(read_amount("12,500").ok());
  EXPECT_FALSE(read_amount("1.250,5").ok());
  reads("1,2500", 1.25, nullptr);
}

TEST(ReadAmount, RefusesWhatIsNoAmount) {
  for (const char* text : {"", " ", "bar", "28 furlongs", "nan", "inf", "0x10", "1e999", "--1",
                           "1 2 bar", "3 mPa", "1.2.3"}) {
    EXPECT_FALSE(read_amount(text).ok()) << text;
  }
}

}  // namespace
}  // namespace benchwarden::quantities
