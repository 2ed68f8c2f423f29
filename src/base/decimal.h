#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"

namespace benchwarden::base {

/// An exact decimal number with at most three places, the only number a book entry holds.
/// Magnitude at most 999 999 999 999.999, so that every value is an exact IEEE double for the
/// readers of our JSON and no sum over a book can overflow 64 bits.
struct Decimal {
  std::int64_t thousandths = 0;
  friend auto operator<=>(const Decimal&, const Decimal&) = default;
};

inline constexpr std::int64_t kDecimalThousandthsMax = 999'999'999'999'999;

/// Reads a JSON number token. Refused (kInvalid): exponent, more than three places, out of range,
/// anything that is not a JSON number. "-0" reads as 0; trailing zeros within three places are
/// read and not kept.
Result<Decimal> parse_decimal(std::string_view token);

/// The shortest form: no trailing zeros, no exponent, "-" only before a non-zero value. Equals
/// what RFC 8785 (ECMAScript number to string) prints for the same value.
std::string format_decimal(Decimal value);

/// Named rounding: ties go away from zero. `divisor` > 0.
std::int64_t divide_round_half_away(std::int64_t dividend, std::int64_t divisor);

}  // namespace benchwarden::base
