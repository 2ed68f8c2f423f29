#include <gtest/gtest.h>

#include "reports/fixture.h"

// The clock of Europe/Berlin goes back on 25 October 2026 and forward on 28 March 2027, and the
// months are cut where it stands at midnight, not at midnight UTC.

namespace benchwarden::reports {
namespace {

std::int64_t arisen(const BookUnderTest& book, base::CivilMonth month,
                    std::string_view as_of = "2027-06-01T00:00:00+02:00") {
  return figures_of(book, month, as_of).streams.at(0).arisen;
}

TEST(MonthBoundary, AnEntryLateOnTheLastEveningBelongsToThatMonth) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1'000, "2026-10-31T23:30:00+01:00");  // 22:30 UTC
  EXPECT_EQ(arisen(book, {2026, 10}), 1'000);
  EXPECT_EQ(arisen(book, {2026, 11}), 0);
}

TEST(MonthBoundary, IsWhereTheOffsetInForcePutsMidnight) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1, "2026-10-01T00:00:00+02:00");       // the first instant, summer time
  book.drain("w1", 20, "2026-09-30T23:59:59.999+02:00");  // the one before
  book.drain("w1", 300, "2026-10-31T23:59:59.999+01:00");
  book.drain("w1", 4'000, "2026-11-01T00:00:00+01:00");  // the first of November, winter time
  EXPECT_EQ(arisen(book, {2026, 9}), 20);
  EXPECT_EQ(arisen(book, {2026, 10}), 301);
  EXPECT_EQ(arisen(book, {2026, 11}), 4'000);
  book.drain("w1", 5, "2027-03-31T23:30:00+02:00");
  EXPECT_EQ(arisen(book, {2027, 3}), 5);
  EXPECT_EQ(arisen(book, {2027, 4}), 0);
}

TEST(MonthBoundary, GoesByTheInstantWhateverOffsetTheTabletWrote) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1'000, "2026-11-01T04:00:00+05:00");  // 00:00 of 1 November in Berlin
  EXPECT_EQ(arisen(book, {2026, 10}), 0);
  EXPECT_EQ(arisen(book, {2026, 11}), 1'000);
}

TEST(MonthBoundary, BothHoursOfTheNightTheClockGoesBackCountOnce) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1, "2026-10-25T02:30:00+02:00");
  book.drain("w1", 20, "2026-10-25T02:30:00+01:00");
  EXPECT_EQ(arisen(book, {2026, 10}), 21);
}

TEST(MonthBoundary, AMonthThatIsNotOverCountsWhatHappenedByThen) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1, "2026-10-10T10:00:00+02:00");
  book.drain("w1", 20, "2026-10-10T10:00:00.001+02:00");
  const auto running = figures_of(book, {2026, 10}, "2026-10-10T10:00:00+02:00");
  EXPECT_EQ(running.month_state, MonthState::kRunning);
  EXPECT_EQ(running.streams.at(0).arisen, 1);
  const auto early = figures_of(book, {2026, 10}, "2026-09-10T10:00:00+02:00");
  EXPECT_EQ(early.month_state, MonthState::kNotBegun);
  EXPECT_EQ(early.streams.at(0).arisen, 0);
  const auto over = figures_of(book, {2026, 10}, "2026-10-31T23:59:59.999+01:00");
  EXPECT_EQ(over.month_state, MonthState::kOver);
  EXPECT_EQ(over.streams.at(0).arisen, 21);
}

}  // namespace
}  // namespace benchwarden::reports
