#include "access/token.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace benchwarden::access {
namespace {

TEST(Token, Is256BitsInBase64Url) {
  std::set<std::string> seen;
  std::set<char> characters;
  for (int i = 0; i < 500; ++i) {
    const std::string token = new_token();
    EXPECT_EQ(token.size(), 43U);
    characters.insert(token.begin(), token.end());
    seen.insert(token);
  }
  EXPECT_EQ(seen.size(), 500U);
  EXPECT_EQ(characters.size(), 64U) << "21 500 characters show all of the alphabet";
  for (const char c : characters) EXPECT_TRUE(std::isalnum(c) != 0 || c == '-' || c == '_') << c;
}

TEST(Token, IsStoredAsItsSha256) {
  const std::string token = new_token();
  EXPECT_EQ(token_digest(token), base::sha256(token));
}

TEST(Token, OfAnotherLengthHasNoDigest) {
  EXPECT_FALSE(token_digest("").has_value());
  EXPECT_FALSE(token_digest(std::string(42, 'A')).has_value());
  EXPECT_FALSE(token_digest(std::string(100'000, 'A')).has_value());
}

}  // namespace
}  // namespace benchwarden::access
