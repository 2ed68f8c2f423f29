#include "base/uuid.h"

#include <openssl/rand.h>

#include <cassert>
#include <optional>

#include "base/sha256.h"

namespace benchwarden::base {
namespace {

std::optional<std::uint8_t> hex_value(char c) {
  if (c >= '0' && c <= '9') return static_cast<std::uint8_t>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<std::uint8_t>(c - 'a' + 10);
  if (c >= 'A' && c <= 'F') return static_cast<std::uint8_t>(c - 'A' + 10);
  return std::nullopt;
}

bool is_dash_place(std::size_t at) { return at == 8 || at == 13 || at == 18 || at == 23; }

Error not_a_uuid(std::string_view text) {
  return {ErrorCode::kInvalid,
          "'" + std::string(text) + "' is not a UUID in the form 8-4-4-4-12 hexadecimal digits"};
}

}  // namespace

Result<Uuid> parse_uuid(std::string_view text) {
  if (text.size() != 36) return not_a_uuid(text);
  Uuid id;
  std::size_t nibble = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (is_dash_place(at)) {
      if (text[at] != '-') return not_a_uuid(text);
      continue;
    }
    const auto value = hex_value(text[at]);
    if (!value) return not_a_uuid(text);
    auto& byte = id.bytes.at(nibble / 2);
    byte = static_cast<std::uint8_t>(byte << 4U | *value);
    ++nibble;
  }
  if (id == Uuid{}) return not_a_uuid(text);
  return id;
}

std::string format_uuid(const Uuid& id) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  text.reserve(36);
  for (const std::uint8_t byte : id.bytes) {
    if (is_dash_place(text.size())) text += '-';
    text += kDigits[byte >> 4U];
    text += kDigits[byte & 0xFU];
  }
  return text;
}

Uuid make_uuid7(Instant now, const std::array<std::uint8_t, 10>& random) {
  Uuid id;
  auto ms = static_cast<std::uint64_t>(now.ms);
  for (std::size_t i = 6; i-- > 0; ms >>= 8U) {
    id.bytes.at(i) = static_cast<std::uint8_t>(ms & 0xFFU);
  }
  for (std::size_t i = 0; i < random.size(); ++i) id.bytes.at(6 + i) = random.at(i);
  id.bytes[6] = static_cast<std::uint8_t>((id.bytes[6] & 0x0FU) | 0x70U);  // version 7
  id.bytes[8] = static_cast<std::uint8_t>((id.bytes[8] & 0x3FU) | 0x80U);  // RFC 9562 variant
  return id;
}

Uuid new_uuid7(Instant now) {
  std::array<std::uint8_t, 10> random{};
  [[maybe_unused]] const int drawn = RAND_bytes(random.data(), static_cast<int>(random.size()));
  assert(drawn == 1);  // a system without random numbers is a broken environment
  return make_uuid7(now, random);
}

}  // namespace benchwarden::base
