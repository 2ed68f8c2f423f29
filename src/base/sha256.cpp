#include "base/sha256.h"

#include <openssl/evp.h>

#include <cassert>
#include <memory>
#include <new>
#include <optional>

namespace benchwarden::base {
namespace {

std::optional<std::uint8_t> nibble(char c) {
  if (c >= '0' && c <= '9') return static_cast<std::uint8_t>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<std::uint8_t>(c - 'a' + 10);
  return std::nullopt;
}

}  // namespace

struct Sha256Stream::Hasher {
  // Fetched once: looking the algorithm up for every hash costs as much as a short hash itself.
  EVP_MD* algorithm = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  EVP_MD_CTX* context = EVP_MD_CTX_new();
  Hasher() {
    if (algorithm == nullptr || context == nullptr) throw std::bad_alloc();
    begin();
  }
  Hasher(const Hasher&) = delete;
  Hasher& operator=(const Hasher&) = delete;
  ~Hasher() {
    EVP_MD_CTX_free(context);
    EVP_MD_free(algorithm);
  }
  void begin() { must(EVP_DigestInit_ex2(context, algorithm, nullptr)); }
  void add(std::string_view bytes) { must(EVP_DigestUpdate(context, bytes.data(), bytes.size())); }
  Sha256Digest finish() {
    Sha256Digest digest{};
    must(EVP_DigestFinal_ex(context, digest.data(), nullptr));
    begin();
    return digest;
  }
  static void must(int done) {
    assert(done == 1);  // SHA-256 of memory cannot fail once its context exists
    static_cast<void>(done);
  }
};

Sha256Stream::Sha256Stream() : hasher_(std::make_unique<Hasher>()) {}
Sha256Stream::~Sha256Stream() = default;
void Sha256Stream::add(std::string_view bytes) { hasher_->add(bytes); }
Sha256Digest Sha256Stream::finish() { return hasher_->finish(); }

Sha256Digest sha256(std::span<const std::string_view> parts) {
  thread_local Sha256Stream stream;
  for (const std::string_view part : parts) stream.add(part);
  return stream.finish();
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
