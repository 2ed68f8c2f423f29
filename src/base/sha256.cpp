#include "base/sha256.h"

#include <openssl/evp.h>

#include <cassert>
#include <memory>
#include <new>
#include <optional>

namespace benchwarden::base {
namespace {

struct Hasher {
  // Fetched once: looking the algorithm up for every hash costs as much as a short hash itself.
  EVP_MD* algorithm = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  EVP_MD_CTX* context = EVP_MD_CTX_new();
  Hasher() {
    if (algorithm == nullptr || context == nullptr) throw std::bad_alloc();
  }
  Hasher(const Hasher&) = delete;
  Hasher& operator=(const Hasher&) = delete;
  ~Hasher() {
    EVP_MD_CTX_free(context);
    EVP_MD_free(algorithm);
  }
};

std::optional<std::uint8_t> nibble(char c) {
  if (c >= '0' && c <= '9') return static_cast<std::uint8_t>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<std::uint8_t>(c - 'a' + 10);
  return std::nullopt;
}

}  // namespace

Sha256Digest sha256(std::span<const std::string_view> parts) {
  thread_local Hasher hasher;
  Sha256Digest digest{};
  int done = EVP_DigestInit_ex2(hasher.context, hasher.algorithm, nullptr);
  for (const std::string_view part : parts) {
    done &= EVP_DigestUpdate(hasher.context, part.data(), part.size());
  }
  done &= EVP_DigestFinal_ex(hasher.context, digest.data(), nullptr);
  assert(done == 1);  // SHA-256 of memory cannot fail once its context exists
  return digest;
}

Sha256Digest sha256(std::string_view bytes) { return sha256(std::span(&bytes, 1)); }

std::string to_hex(std::span<const std::uint8_t> bytes) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  text.reserve(bytes.size() * 2);
  for (const std::uint8_t byte : bytes) {
    text += kDigits[byte >> 4U];
    text += kDigits[byte & 0x0FU];
  }
  return text;
}

Result<Sha256Digest> digest_from_hex(std::string_view text) {
  Sha256Digest digest{};
  const Error fault{ErrorCode::kInvalid,
                    "'" + std::string(text) + "' is not a SHA-256 in 64 lower-case digits"};
  if (text.size() != digest.size() * 2) return fault;
  for (std::size_t i = 0; i < digest.size(); ++i) {
    const auto high = nibble(text[2 * i]);
    const auto low = nibble(text[2 * i + 1]);
    if (!high || !low) return fault;
    digest.at(i) = static_cast<std::uint8_t>(*high << 4U | *low);
  }
  return digest;
}

std::string_view as_bytes(const Sha256Digest& digest) {
  return {reinterpret_cast<const char*>(digest.data()), digest.size()};
}

}  // namespace benchwarden::base
