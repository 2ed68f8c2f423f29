#include "base/civil_date.h"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <optional>

namespace benchwarden::base {
namespace {

using std::chrono::day;
using std::chrono::days;
using std::chrono::month;
using std::chrono::sys_days;
using std::chrono::year;
using std::chrono::year_month_day;

year_month_day to_chrono(CivilDate date) {
  return year{date.year} / month{static_cast<unsigned>(date.month)} /
         day{static_cast<unsigned>(date.day)};
}

CivilDate from_chrono(year_month_day date) {
  return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day()))};
}

std::int64_t day_number(CivilDate date) {
  return sys_days{to_chrono(date)}.time_since_epoch().count();
}

std::optional<int> digits(std::string_view text) {
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

}  // namespace

Result<CivilMonth> parse_month(std::string_view text) {
  if (text.size() == 7 && text[4] == '-') {
    const auto y = digits(text.substr(0, 4));
    const auto m = digits(text.substr(5, 2));
    if (y && m && *y >= kFirstDay.year && *m >= 1 && *m <= 12) return CivilMonth{*y, *m};
  }
  return Error{ErrorCode::kInvalid, "'" + std::string(text) + "' is not a month, YYYY-MM"};
}

Result<CivilDate> parse_date(std::string_view text) {
  if (text.size() == 10 && text[7] == '-') {
    const auto month_part = parse_month(text.substr(0, 7));
    const auto d = digits(text.substr(8, 2));
    if (month_part && d) {
      const CivilDate date{month_part->year, month_part->month, *d};
      if (to_chrono(date).ok()) return date;
    }
  }
  return Error{ErrorCode::kInvalid,
               "'" + std::string(text) + "' is not a day of the calendar, YYYY-MM-DD"};
}

std::string format_date(CivilDate date) {
  std::string text = "0000-00-00";
  const auto put = [&](std::size_t from, std::size_t end, int value) {
    for (std::size_t at = end; at-- > from; value /= 10) {
      text[at] = static_cast<char>('0' + value % 10);
    }
  };
  put(0, 4, date.year);
  put(5, 7, date.month);
  put(8, 10, date.day);
  return text;
}

std::string format_month(CivilMonth month) { return format_date(first_day(month)).substr(0, 7); }

CivilDate add_days(CivilDate date, int count) {
  const std::int64_t sum =
      std::clamp(day_number(date) + count, day_number(kFirstDay), day_number(kLastDay));
  return from_chrono(year_month_day{sys_days{days{static_cast<days::rep>(sum)}}});
}

int days_between(CivilDate from, CivilDate to) {
  return static_cast<int>((sys_days{to_chrono(to)} - sys_days{to_chrono(from)}).count());
}

CivilMonth month_of(CivilDate date) { return {date.year, date.month}; }

CivilMonth next_month(CivilMonth month) {
  return month.month == 12 ? CivilMonth{month.year + 1, 1}
                           : CivilMonth{month.year, month.month + 1};
}

CivilDate first_day(CivilMonth month) { return {month.year, month.month, 1}; }

CivilDate last_day(CivilMonth month) { return add_days(first_day(next_month(month)), -1); }

}  // namespace benchwarden::base
