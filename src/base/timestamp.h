#pragma once

#include <compare>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>

#include "base/result.h"

namespace benchwarden::base {

/// A point in time: milliseconds since 1970-01-01T00:00:00Z, leap seconds not counted.
struct Instant {
  std::int64_t ms = 0;
  friend auto operator<=>(const Instant&, const Instant&) = default;
};

inline constexpr Instant kEarliest{std::numeric_limits<std::int64_t>::min()};
inline constexpr std::int64_t kDayMs = std::int64_t{24} * 60 * 60 * 1000;

/// An instant as somebody wrote it: with the offset of the clock it was read from.
struct Timestamp {
  Instant instant;
  int offset_minutes = 0;  ///< east of UTC, -1439 … 1439
  friend bool operator==(const Timestamp&, const Timestamp&) = default;
};

/// Reads an RFC 3339 date-time with an offset or Z, years 1970 … 9999, at most nine places of
/// seconds of which three are kept, no leap second. kInvalid otherwise.
Result<Timestamp> parse_rfc3339(std::string_view text);

/// RFC 3339 with offset; milliseconds are printed only when they are not zero. A zero offset is
/// printed as Z.
std::string format_rfc3339(Timestamp time);
std::string format_rfc3339_utc(Instant instant);

}  // namespace benchwarden::base
