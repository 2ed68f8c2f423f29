// Calendar arithmetic against that of the C++ library, and where the calendar ends.

#include <gtest/gtest.h>

#include <chrono>

#include "calculations/due_date.h"

namespace benchwarden::calculations {
namespace {

using base::CivilDate;
using std::chrono::days;
using std::chrono::months;
using std::chrono::sys_days;
using std::chrono::year_month_day;

CivilDate civil(year_month_day date) {
  return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day()))};
}

constexpr sys_days kFirst = std::chrono::year{1996} / 1 / 1;
constexpr sys_days kLast = std::chrono::year{2005} / 1 / 1;

TEST(Dates, MonthsOnAreThoseOfTheLibraryCutAtTheEndOfTheMonth) {
  for (sys_days day = kFirst; day < kLast; day += days(1)) {
    const year_month_day from{day};
    for (const int count : {0, 1, 2, 11, 12, 13, 48, 1200}) {
      year_month_day due = from + months(count);
      if (!due.ok()) due = due.year() / due.month() / std::chrono::last;
      ASSERT_EQ(add_months(civil(from), count), civil(due))
          << base::format_date(civil(from)) << " and " << count;
    }
  }
}

TEST(Dates, DaysOnAreThoseOfTheLibrary) {
  for (sys_days day = kFirst; day < kLast; day += days(17)) {
    for (const int count : {0, 1, 28, 59, 365, 366, 36525}) {
      ASSERT_EQ(days_after(civil(year_month_day{day}), count),
                civil(year_month_day{day + days(count)}));
    }
  }
}

TEST(Dates, WeekdaysAreThoseOfTheLibrary) {
  for (sys_days day = kFirst; day < kLast; day += days(1)) {
    OpeningDays opening;
    opening.open[std::chrono::weekday(day).iso_encoding() - 1] = true;
    ASSERT_TRUE(is_open(opening, civil(year_month_day{day})));
    ASSERT_FALSE(is_open(opening, civil(year_month_day{day + days(1)})));
  }
}

TEST(Dates, NothingLiesAfterTheYear9999) {
  const CivilDate last{9999, 12, 31};
  EXPECT_EQ(add_months(last, 0), last);
  EXPECT_EQ(add_months(last, 1), std::nullopt);
  EXPECT_EQ(add_months({9999, 11, 30}, 1), (CivilDate{9999, 12, 30}));
  EXPECT_EQ(days_after({9999, 12, 30}, 1), last);
  EXPECT_EQ(days_after(last, 1), std::nullopt);
  EXPECT_EQ(stamp_due({9998, 6}, 1), (base::CivilMonth{9999, 6}));
  EXPECT_EQ(stamp_due({9999, 6}, 1), std::nullopt);
  EXPECT_EQ(next_open(OpeningDays{}, last), std::nullopt);
  EXPECT_EQ(add_open_days(OpeningDays{}, last, 1), std::nullopt);
}

}  // namespace
}  // namespace benchwarden::calculations
