#include "workshop/backup_rotation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "workshop/backup_manifest.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::UnorderedElementsAre;

base::Zone berlin() { return *base::Zone::find("Europe/Berlin"); }

/// Names of backups made at these times.
std::vector<std::string> named(const std::vector<std::string>& times) {
  std::vector<std::string> names;
  for (const std::string& time : times) names.push_back(backup_name(at(time)));
  return names;
}

std::vector<std::string> removed(const std::vector<std::string>& names, const BackupsKept& kept) {
  return backups_to_remove(names, kept, berlin(), at("2026-11-20T12:00:00Z"));
}

TEST(BackupNames, AreReadAsTheyAreWrittenAndNoOtherIs) {
  EXPECT_EQ(backup_name(at("2026-11-20T03:00:07.250Z")), "benchwarden-20261120T030007Z");
  EXPECT_EQ(backup_made_at("benchwarden-20261120T030007Z"), at("2026-11-20T03:00:07Z"));
  for (const char* name :
       {"", "benchwarden-", "benchwarden-20261120T030007z", "benchwarden-20261320T030007Z",
        "benchwarden-20261120T030007Z ", "Benchwarden-20261120T030007Z", "holiday-photos",
        "benchwarden-20261120-030007Z", "benchwarden-2026-1120T0300Z",
        "../rden-20261120T030007Z"}) {
    EXPECT_EQ(backup_made_at(name), std::nullopt) << name;
  }
}

TEST(BackupRotation, KeepsTheNewestOfADayAndOfTheLastDaysThatHaveOne) {
  const auto names = named({"2026-11-20T02:00:00Z", "2026-11-20T09:00:00Z", "2026-11-18T02:00:00Z",
                            "2026-11-10T02:00:00Z", "2026-11-09T02:00:00Z"});
  EXPECT_THAT(removed(names, {3, 0, 0}), UnorderedElementsAre(names[0], names[4]))
      << "days without one do not count";
  EXPECT_THAT(removed(names, {1, 0, 0}), Not(Contains(names[1])));
}

TEST(BackupRotation, LeavesWhatWasMadeBeforeTheClockWasSetBack) {
  const auto names = named({"2026-11-21T02:00:00Z", "2026-12-24T02:00:00Z", "2026-11-20T02:00:00Z",
                            "2026-11-19T02:00:00Z"});
  EXPECT_THAT(removed(names, {1, 0, 0}), ElementsAre(names[3]));
}

TEST(BackupRotation, CountsWeeksFromMondayAndMonthsByTheCalendarOfTheZone) {
  // The 16th was a Monday: the 15th is of the week before. By Berlin's clock the last is
  // December's.
  const auto names = named({"2026-11-17T02:00:00Z", "2026-11-16T02:00:00Z", "2026-11-15T02:00:00Z",
                            "2026-10-31T23:30:00Z", "2026-10-31T12:00:00Z"});
  EXPECT_THAT(removed(names, {1, 2, 0}), UnorderedElementsAre(names[1], names[3], names[4]));
  EXPECT_THAT(removed(names, {1, 0, 2}), UnorderedElementsAre(names[1], names[2], names[3]));
  EXPECT_THAT(removed({names[3], names[4]}, {1, 0, 2}), IsEmpty())
      << "half past eleven at night in UTC is the next month there";
}

TEST(BackupRotation, NeverTakesTheNewestNorWhatHasAnotherName) {
  const auto names = named({"2026-01-02T02:00:00Z", "2026-01-01T02:00:00Z"});
  std::vector<std::string> all = names;
  all.insert(all.end(), {"photos", "benchwarden-old", "benchwarden-20260101T020000Z.copy"});
  EXPECT_THAT(removed(all, {0, 0, 0}), ElementsAre(names[1]));
}

TEST(BackupRotation, ClearsWhatWasBegunLongAgoAndNeverFinished) {
  const std::string recent = "benchwarden-20261120T020000Z.partial-abcdef";
  const std::string old = "benchwarden-20261118T020000Z.partial-abcdef";
  EXPECT_THAT(removed({recent, old, "report.partial-abcdef"}, {}), ElementsAre(old));
}

TEST(BackupRotation, OfYearsOfDailyBackupsKeepsSevenDaysFiveWeeksTwelveMonths) {
  std::mt19937 random(std::random_device{}());
  std::vector<std::string> folder;
  base::Instant now = at("2024-01-01T02:00:00Z");
  for (int day = 0; day < 900; ++day) {
    now.ms += base::kDayMs;
    folder.push_back(backup_name(now));
    std::shuffle(folder.begin(), folder.end(), random);
    for (const std::string& gone : backups_to_remove(folder, {}, berlin(), now)) {
      folder.erase(std::find(folder.begin(), folder.end(), gone));
    }
    ASSERT_LE(folder.size(), 7U + 5U + 12U);
    ASSERT_THAT(folder, Contains(backup_name(now)));
  }
  std::set<base::CivilMonth> months;
  for (const std::string& name : folder) months.insert(berlin().month_of(*backup_made_at(name)));
  EXPECT_EQ(months.size(), 12U);
  for (int day = 0; day < 7; ++day) {
    EXPECT_THAT(folder, Contains(backup_name({now.ms - day * base::kDayMs})));
  }
}

TEST(BackupDue, IsTheLastTimeTheWallClockSaidTheHour) {
  const auto due = [](const char* now, int hour) {
    return base::format_rfc3339_utc(last_backup_due(at(now), hour, berlin()));
  };
  EXPECT_EQ(due("2026-11-20T12:00:00Z", 3), "2026-11-20T02:00:00Z");
  EXPECT_EQ(due("2026-11-20T01:59:59Z", 3), "2026-11-19T02:00:00Z");
  EXPECT_EQ(due("2026-11-20T02:00:00Z", 3), "2026-11-20T02:00:00Z");
  EXPECT_EQ(due("2026-07-20T12:00:00Z", 3), "2026-07-20T01:00:00Z") << "summer time";
  EXPECT_EQ(due("2026-11-19T23:30:00Z", 0), "2026-11-19T23:00:00Z") << "midnight there";
  // The clocks go back at 3 on 25 October 2026, and forward at 2 on 29 March.
  EXPECT_EQ(due("2026-10-25T12:00:00Z", 4), "2026-10-25T03:00:00Z");
  EXPECT_EQ(due("2026-03-29T12:00:00Z", 4), "2026-03-29T02:00:00Z");
}

}  // namespace
}  // namespace benchwarden::workshop
