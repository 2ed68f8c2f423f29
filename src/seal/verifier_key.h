#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"
#include "seal/ed25519.h"

namespace benchwarden::seal {

/// What a signature is checked with: a key and the name it signs under.
struct VerifierKey {
  std::string name;
  PublicKey key{};
  friend bool operator==(const VerifierKey&, const VerifierKey&) = default;
};

/// Not empty, valid UTF-8, no space of any script, no control and no plus.
bool is_key_name(std::string_view name);

inline constexpr std::size_t kKeyIdBytes = 4;
/// The first four bytes of SHA-256(name, line feed, 0x01, key), as C2SP signed-note has it.
std::uint32_t key_id(const VerifierKey& key);

/// `name+hex(key id)+base64(0x01 || key)`, the text of a verifier key in C2SP signed-note.
std::string verifier_key_text(const VerifierKey& key);
/// kInvalid says which part is none, or that the key id is not that of name and key.
base::Result<VerifierKey> parse_verifier_key(std::string_view text);

}  // namespace benchwarden::seal
