#include "base/base64.h"

#include <gtest/gtest.h>

namespace benchwarden::base {
namespace {

/// Section 10 of the RFC; the last one holds the two signs that are neither letter nor digit.
TEST(Base64, FollowsTheExamplesOfRfc4648) {
  EXPECT_EQ(to_base64(""), "");
  EXPECT_EQ(to_base64("f"), "Zg==");
  EXPECT_EQ(to_base64("fo"), "Zm8=");
  EXPECT_EQ(to_base64("foo"), "Zm9v");
  EXPECT_EQ(to_base64("foob"), "Zm9vYg==");
  EXPECT_EQ(to_base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(to_base64("foobar"), "Zm9vYmFy");
  EXPECT_EQ(to_base64("\xFF\xFE\xFD"), "//79");
}

}  // namespace
}  // namespace benchwarden::base
