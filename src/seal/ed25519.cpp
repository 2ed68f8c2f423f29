#include "seal/ed25519.h"

#include <sodium.h>

#include <algorithm>
#include <cassert>

namespace benchwarden::seal {

static_assert(crypto_sign_SEEDBYTES == SigningKey::kSeedBytes);
static_assert(crypto_sign_PUBLICKEYBYTES == std::tuple_size_v<PublicKey>);
static_assert(crypto_sign_BYTES == std::tuple_size_v<Signature>);
static_assert(crypto_sign_SECRETKEYBYTES == 64);

namespace {

const unsigned char* raw(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

}  // namespace

std::string SigningKey::new_seed() {
  std::string seed(kSeedBytes, '\0');
  randombytes_buf(seed.data(), seed.size());
  return seed;
}

SigningKey::SigningKey(std::string_view seed) {
  assert(seed.size() == kSeedBytes);
  PublicKey unused{};
  crypto_sign_seed_keypair(unused.data(), secret_.data(), raw(seed));
}

SigningKey::~SigningKey() { sodium_memzero(secret_.data(), secret_.size()); }

PublicKey SigningKey::public_key() const {
  PublicKey key{};
  crypto_sign_ed25519_sk_to_pk(key.data(), secret_.data());
  return key;
}

Signature SigningKey::sign(std::string_view text) const {
  Signature signature{};
  crypto_sign_detached(signature.data(), nullptr, raw(text), text.size(), secret_.data());
  return signature;
}

bool is_signed_by(const PublicKey& key, std::string_view text, const Signature& signature) {
  return crypto_sign_verify_detached(signature.data(), raw(text), text.size(), key.data()) == 0;
}

}  // namespace benchwarden::seal
