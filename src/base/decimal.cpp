#include "base/decimal.h"

#include <cassert>
#include <cstdlib>

namespace benchwarden::base {
namespace {

constexpr int kPlacesMax = 3;
constexpr std::size_t kWholeDigitsMax = 12;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t count_digits(std::string_view text) {
  std::size_t n = 0;
  while (n < text.size() && is_digit(text[n])) ++n;
  return n;
}

Error not_a_decimal(std::string_view token) {
  return {ErrorCode::kInvalid,
          "'" + std::string(token) + "' is not a plain decimal number with at most three places"};
}

}  // namespace

Result<Decimal> parse_decimal(std::string_view token) {
  std::string_view rest = token;
  const bool negative = !rest.empty() && rest.front() == '-';
  if (negative) rest.remove_prefix(1);

  const std::size_t whole = count_digits(rest);
  const bool leading_zero = whole > 1 && rest.front() == '0';
  if (whole == 0 || whole > kWholeDigitsMax || leading_zero) return not_a_decimal(token);

  std::int64_t thousandths = 0;
  for (const char c : rest.substr(0, whole)) thousandths = thousandths * 10 + (c - '0');
  rest.remove_prefix(whole);

  int places = 0;
  if (!rest.empty()) {
    if (rest.front() != '.') return not_a_decimal(token);
    rest.remove_prefix(1);
    if (rest.empty() || count_digits(rest) != rest.size() || rest.size() > kPlacesMax) {
      return not_a_decimal(token);
    }
    for (const char c : rest) {
      thousandths = thousandths * 10 + (c - '0');
      ++places;
    }
  }
  for (; places < kPlacesMax; ++places) thousandths *= 10;
  assert(thousandths >= 0 && thousandths <= kDecimalThousandthsMax);
  return Decimal{negative ? -thousandths : thousandths};
}

std::string format_decimal(Decimal value) {
  const std::int64_t magnitude = std::llabs(value.thousandths);
  std::string text = value.thousandths < 0 ? "-" : "";
  text += std::to_string(magnitude / 1000);
  if (magnitude % 1000 == 0) return text;
  std::string places = std::to_string(1000 + magnitude % 1000).substr(1);
  while (places.back() == '0') places.pop_back();
  return text + "." + places;
}

std::int64_t divide_round_half_away(std::int64_t dividend, std::int64_t divisor) {
  assert(divisor > 0);
  const std::int64_t quotient = dividend / divisor;
  const std::int64_t remainder = std::llabs(dividend % divisor);
  if (remainder < divisor - remainder) return quotient;
  return dividend < 0 ? quotient - 1 : quotient + 1;
}

}  // namespace benchwarden::base
