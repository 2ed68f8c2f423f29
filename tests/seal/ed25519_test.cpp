#include "seal/ed25519.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/sha256.h"

namespace benchwarden::seal {
namespace {

std::string bytes_of_hex(const std::string& hex) {
  std::string bytes;
  for (std::size_t i = 0; i < hex.size(); i += 2) {
    bytes += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
  }
  return bytes;
}

/// RFC 8032, section 7.1, tests 1 to 3: secret key, public key, message, signature.
struct Vector {
  const char* secret;
  const char* key;
  const char* message;
  const char* signature;
};
constexpr Vector kVectors[] = {
    {"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
     "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
     "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b"
     "4"
     "6bd25bf5f0595bbe24655141438e7a100b"},
    {"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
     "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
     "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11"
     "d"
     "8c387b2eaeb4302aeeb00d291612bb0c00"},
    {"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
     "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
     "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc"
     "6"
     "594a7c15e9716ed28dc027beceea1ec40a"}};

TEST(Ed25519, SignsByTheExamplesOfRfc8032) {
  for (const Vector& vector : kVectors) {
    const SigningKey key(bytes_of_hex(vector.secret));
    const std::string message = bytes_of_hex(vector.message);
    EXPECT_EQ(base::to_hex(key.public_key()), vector.key);
    EXPECT_EQ(base::to_hex(key.sign(message)), vector.signature);
    EXPECT_TRUE(is_signed_by(key.public_key(), message, key.sign(message)));
  }
}

TEST(Ed25519, RefusesAnotherTextKeyOrSignature) {
  const SigningKey key(bytes_of_hex(kVectors[0].secret));
  const SigningKey other(bytes_of_hex(kVectors[1].secret));
  const Signature signature = key.sign("a text");
  EXPECT_FALSE(is_signed_by(key.public_key(), "a texT", signature));
  EXPECT_FALSE(is_signed_by(other.public_key(), "a text", signature));
  for (std::size_t at = 0; at < signature.size(); ++at) {
    Signature changed = signature;
    changed[at] ^= 1U;
    EXPECT_FALSE(is_signed_by(key.public_key(), "a text", changed)) << "byte " << at;
  }
}

TEST(Ed25519, MakesAnotherSeedEachTime) {
  const std::string seed = SigningKey::new_seed();
  EXPECT_EQ(seed.size(), SigningKey::kSeedBytes);
  EXPECT_NE(seed, SigningKey::new_seed());
  EXPECT_NE(seed, std::string(SigningKey::kSeedBytes, '\0'));
}

}  // namespace
}  // namespace benchwarden::seal
