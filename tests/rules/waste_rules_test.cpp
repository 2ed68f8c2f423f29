// What a case file cannot show: rules of a workshop's own that count the days it is open.

#include <gtest/gtest.h>

#include "rules/rule_book.h"
#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::at;
using tallies::code_field;
using tallies::enters;

entries::Field day_field(const std::string& name, const std::string& day) {
  return {name, *base::parse_date(day)};
}

/// Open from Monday to Friday, and shut for Christmas.
entries::Effects workshop() {
  entries::List days;
  for (const char* day : {"monday", "tuesday", "wednesday", "thursday", "friday"}) {
    days.rows.push_back({{"weekday", entries::Code{day}}});
  }
  entries::Effects effects = tallies::usual_register();
  effects.push_back(enters("workshop", "site", {{"opening_days", days}}));
  effects.push_back(
      enters("closure", "x1",
             {day_field("first_day", "2026-12-24"), day_field("last_day", "2026-12-31")}));
  effects.push_back(tallies::alters("container", "bin", {code_field("emptied_daily", "yes")}));
  return effects;
}

std::string due_of(const tallies::State& state, const std::string& kind, const std::string& more,
                   const std::string& now) {
  const auto pack = read_pack(
      "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n"
      "[[rules]]\nid = \"own.rule\"\nkind = \"" +
          kind +
          "\"\ncitation = \"ours\"\nedition = \"2026\"\nconfidence = \"text-seen\"\n"
          "sentence = \"As agreed.\"\n" +
          more,
      "local.toml");
  if (!pack) return base::format_faults(pack.error());
  const Scene scene(state, base::parse_rfc3339(now)->instant, *base::Zone::find("Europe/London"));
  std::string told;
  for (const auto& item : judge(RuleBook::stacked({&*pack}), scene).due) {
    told += base::format_date(item.day) + " " + item.subject.id + "\n";
  }
  return told;
}

const std::string kWorking = "days = \"working\"\n";

TEST(WorkingDays, ABinFilledOnAClosedDayIsEmptiedByTheNextOpenOne) {
  tallies::BookUnderTest book(workshop());
  book.enter(at("2026-12-05T10:00:00Z"), {tallies::adds("bin", tallies::kg(1))});  // a Saturday
  const std::string now = "2026-12-05T12:00:00Z";
  EXPECT_EQ(due_of(book.state(), "daily-emptying", "", now), "2026-12-05 bin\n");
  EXPECT_EQ(due_of(book.state(), "daily-emptying", kWorking, now), "2026-12-07 bin\n");
}

TEST(WorkingDays, AStorageClockLeavesOutClosedDays) {
  tallies::BookUnderTest book(workshop());
  book.enter(at("2026-12-21T10:00:00Z"), {tallies::adds("w1", tallies::ml(100))});  // a Monday
  const std::string limit = "figures = { limit = { value = \"3\", unit = \"d\" } }\n";
  const std::string now = "2026-12-21T12:00:00Z";
  EXPECT_EQ(due_of(book.state(), "storage-clock", limit, now), "2026-12-24 w1\n");
  // Tuesday and Wednesday, then no day before Friday, 1 January.
  EXPECT_EQ(due_of(book.state(), "storage-clock", limit + kWorking, now), "2027-01-01 w1\n");
}

}  // namespace
}  // namespace benchwarden::rules
