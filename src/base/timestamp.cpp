#include "base/timestamp.h"

#include <cassert>
#include <cstdlib>
#include <optional>

#include "base/civil_date.h"

namespace benchwarden::base {
namespace {

constexpr std::int64_t kMsPerMinute = 60'000;
constexpr int kMinutesPerDay = 1440;
constexpr CivilDate kEpoch{1970, 1, 1};

Error not_a_time(std::string_view text) {
  return {ErrorCode::kInvalid, "'" + std::string(text) +
                                   "' is not an RFC 3339 time with offset, such as "
                                   "2026-11-25T09:30:00+01:00"};
}

/// Two digits at `at` between 0 and `max`.
std::optional<int> two_digits(std::string_view text, std::size_t at, int max) {
  if (at + 2 > text.size()) return std::nullopt;
  const char tens = text[at];
  const char ones = text[at + 1];
  if (tens < '0' || tens > '9' || ones < '0' || ones > '9') return std::nullopt;
  const int value = (tens - '0') * 10 + (ones - '0');
  return value <= max ? std::optional(value) : std::nullopt;
}

/// Takes ".5", ".523" or ".523999" off the front; whole milliseconds, the rest is dropped.
std::optional<int> take_fraction(std::string_view& rest) {
  constexpr int kPlacesMax = 9;
  if (rest.empty() || rest.front() != '.') return 0;
  rest.remove_prefix(1);
  int ms = 0;
  int places = 0;
  while (!rest.empty() && rest.front() >= '0' && rest.front() <= '9') {
    if (places < 3) ms = ms * 10 + (rest.front() - '0');
    rest.remove_prefix(1);
    if (++places > kPlacesMax) return std::nullopt;
  }
  if (places == 0) return std::nullopt;
  for (; places < 3; ++places) ms *= 10;
  return ms;
}

std::optional<int> read_offset(std::string_view text) {
  if (text == "Z" || text == "z") return 0;
  if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
  const auto hours = two_digits(text, 1, 23);
  const auto minutes = two_digits(text, 4, 59);
  if (!hours || !minutes) return std::nullopt;
  const int offset = *hours * 60 + *minutes;
  return text[0] == '-' ? -offset : offset;
}

/// A sign and two digits.
void append_part(char before, int value, std::string& text) {
  text += before;
  text += static_cast<char>('0' + value / 10);
  text += static_cast<char>('0' + value % 10);
}

}  // namespace

Result<Timestamp> parse_rfc3339(std::string_view text) {
  constexpr std::size_t kSecondsEnd = 19;
  if (text.size() < kSecondsEnd + 1) return not_a_time(text);
  const auto date = parse_date(text.substr(0, 10));
  const bool shape = (text[10] == 'T' || text[10] == 't') && text[13] == ':' && text[16] == ':';
  const auto hour = two_digits(text, 11, 23);
  const auto minute = two_digits(text, 14, 59);
  const auto second = two_digits(text, 17, 59);
  if (!date || date->year < kEpoch.year || !shape || !hour || !minute || !second) {
    return not_a_time(text);
  }
  std::string_view rest = text.substr(kSecondsEnd);
  const auto fraction_ms = take_fraction(rest);
  const auto offset = read_offset(rest);
  if (!fraction_ms || !offset) return not_a_time(text);

  const std::int64_t minutes_of_day = *hour * 60 + *minute - *offset;
  const std::int64_t ms = days_between(kEpoch, *date) * kDayMs + minutes_of_day * kMsPerMinute +
                          *second * std::int64_t{1000} + *fraction_ms;
  return Timestamp{Instant{ms}, *offset};
}

std::string format_rfc3339(Timestamp time) {
  assert(std::abs(time.offset_minutes) < kMinutesPerDay);
  const std::int64_t local_ms = time.instant.ms + time.offset_minutes * kMsPerMinute;
  const std::int64_t day = local_ms >= 0 ? local_ms / kDayMs : -((-local_ms + kDayMs - 1) / kDayMs);
  const int ms_of_day = static_cast<int>(local_ms - day * kDayMs);
  const CivilDate date = add_days(kEpoch, static_cast<int>(day));

  std::string text = format_date(date);
  append_part('T', ms_of_day / 3'600'000, text);
  append_part(':', ms_of_day / 60'000 % 60, text);
  append_part(':', ms_of_day / 1000 % 60, text);
  if (ms_of_day % 1000 != 0) {
    append_part('.', ms_of_day % 1000 / 10, text);
    text += static_cast<char>('0' + ms_of_day % 10);
  }
  if (time.offset_minutes == 0) return text + "Z";
  const int offset = std::abs(time.offset_minutes);
  append_part(time.offset_minutes < 0 ? '-' : '+', offset / 60, text);
  append_part(':', offset % 60, text);
  return text;
}

std::string format_rfc3339_utc(Instant instant) { return format_rfc3339({instant, 0}); }

}  // namespace benchwarden::base
