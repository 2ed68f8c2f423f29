#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "base/result.h"

namespace benchwarden::base {

/// A day of the calendar, always a real one (proleptic Gregorian, years 1900 … 9999).
struct CivilDate {
  int year = 1970;
  int month = 1;
  int day = 1;
  friend auto operator<=>(const CivilDate&, const CivilDate&) = default;
};

inline constexpr CivilDate kFirstDay{1900, 1, 1};
inline constexpr CivilDate kLastDay{9999, 12, 31};

struct CivilMonth {
  int year = 1970;
  int month = 1;
  friend auto operator<=>(const CivilMonth&, const CivilMonth&) = default;
};

Result<CivilDate> parse_date(std::string_view text);    ///< YYYY-MM-DD
Result<CivilMonth> parse_month(std::string_view text);  ///< YYYY-MM
std::string format_date(CivilDate date);
std::string format_month(CivilMonth month);

CivilDate add_days(CivilDate date, int days);    ///< no further than the ends of the calendar
int days_between(CivilDate from, CivilDate to);  ///< to - from
CivilMonth month_of(CivilDate date);
CivilMonth next_month(CivilMonth month);
CivilDate first_day(CivilMonth month);
CivilDate last_day(CivilMonth month);

}  // namespace benchwarden::base
