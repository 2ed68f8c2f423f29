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

TEST(Base64, IsReadBackByteForByte) {
  for (const std::string bytes :
       {"", "f", "fo", "foo", "foob", "fooba", "foobar", "\xFF\xFE\xFD"}) {
    const auto read = from_base64(to_base64(bytes));
    ASSERT_TRUE(read) << bytes;
    EXPECT_EQ(*read, bytes);
  }
}

/// Section 3.5 of the RFC: two texts must not stand for the same bytes.
TEST(Base64, RefusesWhatIsNotTheOneTextOfItsBytes) {
  for (const std::string text : {"Zg", "Zg=", "Zh==", "Zm9=", "Zm9v\n", " Zm9v", "Zm9v    ", "Zm-v",
                                 "=m9v", "Z===", "====", "Zg==Zg=="}) {
    EXPECT_FALSE(from_base64(text)) << text;
  }
}

TEST(Base64, GivesADigestOfJustItsLength) {
  const Sha256Digest digest = sha256("a");
  EXPECT_EQ(*digest_from_base64(to_base64(as_bytes(digest))), digest);
  for (const std::size_t bytes : {0U, 31U, 33U}) {
    EXPECT_FALSE(digest_from_base64(to_base64(std::string(bytes, 'x')))) << bytes;
  }
}

}  // namespace
}  // namespace benchwarden::base
