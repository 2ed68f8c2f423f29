#include <gtest/gtest.h>

#include <limits>

#include "base/civil_date.h"
#include "base/timestamp.h"
#include "base/zone.h"

namespace benchwarden::base {
namespace {

Instant at(std::string_view text) { return parse_rfc3339(text)->instant; }

// RFC 3339 section 5.8 gives these pairs as the same instant.
TEST(Timestamp, ReadsTheExamplesOfItsRfc) {
  EXPECT_EQ(at("1996-12-19T16:39:57-08:00"), at("1996-12-20T00:39:57Z"));
  EXPECT_EQ(at("1985-04-12T23:20:50.52Z").ms, 482196050520);
}

TEST(Timestamp, PrintsBackWhatItRead) {
  for (const char* text : {"2026-11-25T09:33:56+01:00", "2026-11-25T09:33:56.123Z",
                           "2024-02-29T23:59:59-11:30", "1970-01-01T00:00:00Z"}) {
    EXPECT_EQ(format_rfc3339(*parse_rfc3339(text)), text);
  }
}

TEST(Timestamp, KeepsWholeMilliseconds) {
  EXPECT_EQ(at("2026-11-25T09:33:56.857304Z").ms % 1000, 857);
  EXPECT_EQ(at("2026-11-25T09:33:56.999999999Z"), at("2026-11-25T09:33:56.999Z"));
  EXPECT_EQ(at("2026-11-25T09:33:56.5Z").ms % 1000, 500);
}

TEST(Timestamp, RefusesWhatIsNoTime) {
  for (const char* text :
       {"", "2026-11-25", "2026-11-25T09:33:56", "2026-02-29T00:00:00Z", "2026-11-25T24:00:00Z",
        "2026-11-25T09:60:00Z", "2026-11-25T09:33:60Z", "2026-11-25T09:33:56+24:00",
        "2026-11-25T09:33:56.1234567890Z", "2026-11-25T09:33:56.Z", "2026-11-25 09:33:56Z",
        "1969-12-31T23:59:59Z", "2026-11-25T09:33:56+0100"}) {
    EXPECT_FALSE(parse_rfc3339(text).ok()) << text;
  }
}

TEST(CivilDate, KnowsTheCalendar) {
  EXPECT_TRUE(parse_date("2024-02-29").ok());
  for (const char* text : {"2023-02-29", "2100-02-29", "2026-13-01", "2026-00-10", "2026-1-01",
                           "26-01-01", "2026-01-0x"}) {
    EXPECT_FALSE(parse_date(text).ok()) << text;
  }
  EXPECT_EQ(format_date(add_days({2024, 2, 28}, 2)), "2024-03-01");
  EXPECT_EQ(days_between({2026, 1, 1}, {2027, 1, 1}), 365);
  EXPECT_EQ(format_month(next_month({2026, 12})), "2027-01");
  EXPECT_EQ(format_date(last_day({2024, 2})), "2024-02-29");
}

TEST(CivilDate, GoesNoFurtherThanTheEndsOfTheCalendar) {
  constexpr CivilDate kFirstDay{1900, 1, 1};
  constexpr CivilDate kLastDay{9999, 12, 31};
  EXPECT_EQ(add_days({2026, 11, 25}, std::numeric_limits<int>::max()), kLastDay);
  EXPECT_EQ(add_days({2026, 11, 25}, std::numeric_limits<int>::min()), kFirstDay);
  EXPECT_EQ(add_days({9999, 12, 30}, 1), kLastDay);
  EXPECT_EQ(add_days({9999, 12, 30}, 2), kLastDay);
  EXPECT_EQ(add_days({1900, 1, 2}, -2), kFirstDay);
  EXPECT_EQ(last_day({9999, 12}), kLastDay);
}

TEST(Zone, IsFoundByNameOnly) {
  EXPECT_TRUE(Zone::find("Europe/Berlin").ok());
  EXPECT_FALSE(Zone::find("Europe/Atlantis").ok());
  EXPECT_FALSE(Zone::find("").ok());
}

TEST(Zone, TurnsInstantsIntoDaysOfTheWorkshop) {
  const Zone zone = *Zone::find("Europe/Berlin");
  EXPECT_EQ(format_date(zone.date_of(at("2026-10-31T22:59:59Z"))), "2026-10-31");
  EXPECT_EQ(format_date(zone.date_of(at("2026-10-31T23:00:00Z"))), "2026-11-01");
  EXPECT_EQ(format_month(zone.month_of(at("2026-12-31T23:30:00Z"))), "2027-01");
}

TEST(Zone, KnowsMidnightOnBothSidesOfAClockChange) {
  const Zone zone = *Zone::find("Europe/Berlin");
  EXPECT_EQ(zone.start_of(CivilDate{2026, 3, 29}), at("2026-03-28T23:00:00Z"));
  EXPECT_EQ(zone.start_of(CivilDate{2026, 3, 30}), at("2026-03-29T22:00:00Z"));
  EXPECT_EQ(zone.start_of(CivilDate{2026, 10, 25}), at("2026-10-24T22:00:00Z"));
  EXPECT_EQ(zone.start_of(CivilDate{2026, 10, 26}), at("2026-10-25T23:00:00Z"));
}

TEST(Zone, TakesTheFirstInstantWhereTheClockSkipsMidnight) {
  // Lebanon moves its clock at midnight: 2026-03-29 begins at 01:00 local time.
  const Zone zone = *Zone::find("Asia/Beirut");
  const Instant start = zone.start_of(CivilDate{2026, 3, 29});
  EXPECT_EQ(format_date(zone.date_of(start)), "2026-03-29");
  EXPECT_EQ(format_date(zone.date_of(Instant{start.ms - 1})), "2026-03-28");
}

TEST(Zone, PrintsTheWallClockWithItsOffset) {
  const Zone zone = *Zone::find("Europe/Berlin");
  EXPECT_EQ(zone.wall_clock(at("2026-07-01T10:00:00Z")), "2026-07-01 12:00 +02:00");
  EXPECT_EQ(Zone::find("UTC")->wall_clock(at("2026-07-01T10:00:00Z")), "2026-07-01 10:00 +00:00");
}

}  // namespace
}  // namespace benchwarden::base
