#include "http/ending_notice.h"

#include <gtest/gtest.h>

#include "http/hand_clock.h"

namespace benchwarden::http {
namespace {

TEST(EndingNotice, IsDueOnceADayFromAYearBefore) {
  HandClock clock;
  EndingNotice notice({clock.now().ms + 367 * HandClock::kDayMs});
  EXPECT_FALSE(notice.is_due(clock.now()));
  clock.pass_days(1);
  EXPECT_FALSE(notice.is_due(clock.now()));
  clock.pass_days(1);
  EXPECT_TRUE(notice.is_due(clock.now())) << "365 days left";
  EXPECT_FALSE(notice.is_due(clock.now())) << "said already";
  EXPECT_FALSE(notice.is_due({clock.now().ms + HandClock::kDayMs - 1}));
  for (int day = 0; day < 400; ++day) {
    clock.pass_days(1);
    EXPECT_TRUE(notice.is_due(clock.now())) << day;
    EXPECT_FALSE(notice.is_due(clock.now())) << day;
  }
}

}  // namespace
}  // namespace benchwarden::http
