#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace benchwarden::seal {

using PublicKey = std::array<std::uint8_t, 32>;
using Signature = std::array<std::uint8_t, 64>;

/// A private key of Ed25519 (RFC 8032), made from its 32 secret bytes. Its memory is cleared.
class SigningKey {
 public:
  static constexpr std::size_t kSeedBytes = 32;
  /// Fresh secret bytes, from the system's random numbers.
  static std::string new_seed();

  explicit SigningKey(std::string_view seed);  ///< kSeedBytes of them; asserted
  SigningKey(const SigningKey&) = default;
  SigningKey& operator=(const SigningKey&) = delete;
  ~SigningKey();

  [[nodiscard]] PublicKey public_key() const;
  [[nodiscard]] Signature sign(std::string_view text) const;

 private:
  std::array<std::uint8_t, 64> secret_{};
};

/// Whether the signature over `text` was made with the private key that belongs to `key`.
bool is_signed_by(const PublicKey& key, std::string_view text, const Signature& signature);

}  // namespace benchwarden::seal
