#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/timestamp.h"

namespace benchwarden::base {

/// An RFC 9562 UUID. Any version is read; the ones we make are version 7.
struct Uuid {
  std::array<std::uint8_t, 16> bytes{};
  friend auto operator<=>(const Uuid&, const Uuid&) = default;
};

/// The 16 bytes, as they are stored; valid as long as the id.
inline std::string_view bytes_of(const Uuid& id) {
  return {reinterpret_cast<const char*>(id.bytes.data()), id.bytes.size()};
}

Result<Uuid> parse_uuid(std::string_view text);  ///< 8-4-4-4-12, either case; the nil UUID refused
std::string format_uuid(const Uuid& id);         ///< lower case

/// Version 7: 48 bits of milliseconds, then 74 bits given by the caller (a random source, or a
/// seeded one in the demo).
Uuid make_uuid7(Instant now, const std::array<std::uint8_t, 10>& random);

/// A new version 7 id with bits from the system's random source.
Uuid new_uuid7(Instant now);

}  // namespace benchwarden::base
