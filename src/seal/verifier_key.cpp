#include "seal/verifier_key.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "base/base64.h"
#include "base/sha256.h"
#include "base/text.h"

namespace benchwarden::seal {
namespace {

constexpr char kEd25519 = '\x01';

/// Every sign that Unicode calls a space, beside those of ASCII, which are controls or U+0020.
constexpr std::array<std::string_view, 19> kSpaces{"\u0085", "\u00A0", "\u1680", "\u2000", "\u2001",
                                                   "\u2002", "\u2003", "\u2004", "\u2005", "\u2006",
                                                   "\u2007", "\u2008", "\u2009", "\u200A", "\u2028",
                                                   "\u2029", "\u202F", "\u205F", "\u3000"};

std::string typed_key(const PublicKey& key) {
  std::string bytes(1, kEd25519);
  bytes.append(key.begin(), key.end());
  return bytes;
}

base::Sha256Digest id_digest(const VerifierKey& key) {
  const std::string bytes = typed_key(key.key);
  const std::array<std::string_view, 3> parts{key.name, "\n", bytes};
  return base::sha256(parts);
}

std::string id_hex(const VerifierKey& key) {
  return base::to_hex(id_digest(key)).substr(0, 2 * kKeyIdBytes);
}

base::Error no_key(const std::string& why) {
  return {base::ErrorCode::kInvalid, "no verifier key: " + why};
}

}  // namespace

bool is_key_name(std::string_view name) {
  if (name.empty() || !base::is_valid_utf8(name)) return false;
  const bool plain = std::none_of(name.begin(), name.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte <= 0x20 || byte == 0x7F || c == '+';
  });
  return plain && std::none_of(kSpaces.begin(), kSpaces.end(), [&](std::string_view space) {
           return name.find(space) != std::string_view::npos;
         });
}

std::uint32_t key_id(const VerifierKey& key) {
  const base::Sha256Digest digest = id_digest(key);
  return std::accumulate(digest.begin(), digest.begin() + kKeyIdBytes, std::uint32_t{0},
                         [](std::uint32_t id, std::uint8_t byte) { return id << 8U | byte; });
}

std::string verifier_key_text(const VerifierKey& key) {
  return key.name + "+" + id_hex(key) + "+" + base::to_base64(typed_key(key.key));
}

base::Result<VerifierKey> parse_verifier_key(std::string_view text) {
  // The base64 may hold a plus of its own.
  const std::size_t first = text.find('+');
  const std::size_t second = first == std::string_view::npos ? first : text.find('+', first + 1);
  if (second == std::string_view::npos) {
    return no_key("name, key id and key are needed, with '+' between them");
  }
  VerifierKey key{std::string(text.substr(0, first))};
  if (!is_key_name(key.name)) return no_key("its name is empty or holds a space or a control");
  const auto bytes = base::from_base64(text.substr(second + 1));
  if (!bytes) return no_key("what follows the key id is " + bytes.error().detail);
  if (bytes->size() != 1 + key.key.size() || bytes->front() != kEd25519) {
    return no_key("only Ed25519 is known here: the byte 01 and 32 bytes of key");
  }
  std::copy(bytes->begin() + 1, bytes->end(), key.key.begin());
  if (text.substr(first + 1, second - first - 1) != id_hex(key)) {
    return no_key("its key id is not that of its name and key, " + id_hex(key));
  }
  return key;
}

}  // namespace benchwarden::seal
