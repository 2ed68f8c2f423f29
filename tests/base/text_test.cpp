#include "base/text.h"

#include <gtest/gtest.h>

namespace benchwarden::base {
namespace {

TEST(Text, GroupsDigitsInThreesFromTheRight) {
  EXPECT_EQ(grouped_digits(""), "");
  EXPECT_EQ(grouped_digits("205"), "205");
  EXPECT_EQ(grouped_digits("1205"), "1\u202F205");
  EXPECT_EQ(grouped_digits("999999999999"), "999\u202F999\u202F999\u202F999");
}

}  // namespace
}  // namespace benchwarden::base
