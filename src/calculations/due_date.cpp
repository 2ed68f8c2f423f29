#include "calculations/due_date.h"

#include <algorithm>
#include <cassert>

namespace benchwarden::calculations {
namespace {

using base::CivilDate;
using base::CivilMonth;

constexpr int kMonthsOfYear = 12;

CivilMonth months_after(CivilMonth month, int months) {
  const int total = month.year * kMonthsOfYear + month.month - 1 + months;
  return {total / kMonthsOfYear, total % kMonthsOfYear + 1};
}

/// Monday is 0.
std::size_t weekday(CivilDate date) {
  constexpr CivilDate kMonday{1900, 1, 1};
  return static_cast<std::size_t>(base::days_between(kMonday, date) % 7);
}

}  // namespace

std::optional<CivilDate> add_months(CivilDate date, int months) {
  assert(months >= 0 && months <= 1200);
  const CivilMonth month = months_after(base::month_of(date), months);
  if (month.year > base::kLastDay.year) return std::nullopt;
  return CivilDate{month.year, month.month, std::min(date.day, base::last_day(month).day)};
}

std::optional<CivilDate> days_after(CivilDate date, int days) {
  assert(days >= 0);
  if (days > base::days_between(date, base::kLastDay)) return std::nullopt;
  return base::add_days(date, days);
}

std::optional<CivilMonth> stamp_due(CivilMonth last_test, int interval_years) {
  const CivilMonth due{last_test.year + interval_years, last_test.month};
  return due.year > base::kLastDay.year ? std::nullopt : std::optional(due);
}

StampState stamp_state(CivilMonth due, CivilDate today, std::optional<CivilDate> filled_on) {
  const CivilDate last = base::last_day(due);
  if (today <= last) return StampState::kCurrent;
  return filled_on && *filled_on <= last ? StampState::kEmptyThenTest : StampState::kTestBeforeFill;
}

bool is_open(const OpeningDays& days, CivilDate date) {
  return days.open[weekday(date)] &&
         !std::binary_search(days.closed.begin(), days.closed.end(), date);
}

std::optional<CivilDate> next_open(const OpeningDays& days, CivilDate date) {
  constexpr int kDaysAhead = 366;
  for (int i = 0; i <= kDaysAhead; ++i) {
    const auto day = days_after(date, i);
    if (!day || is_open(days, *day)) return day;
  }
  return std::nullopt;
}

std::optional<CivilDate> add_open_days(const OpeningDays& days, CivilDate date, int count) {
  constexpr int kDaysAhead = 3660;
  std::optional<CivilDate> day = date;
  for (int i = 0; i < kDaysAhead && count > 0; ++i) {
    day = days_after(*day, 1);
    if (!day) return std::nullopt;
    if (is_open(days, *day)) --count;
  }
  return count > 0 ? std::nullopt : day;
}

}  // namespace benchwarden::calculations
