// Time passing alone: every kind of rule with a last day finds, and stops to find, at the midnight
// of the workshop, also where the clocks change. Midnight is told here from offsets written out.

#include <gtest/gtest.h>

#include <array>
#include <functional>
#include <set>

#include "rules/rule_book.h"
#include "rules/rule_kind.h"
#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using base::Instant;
using entries::Effects;
using findings::Severity;
using tallies::BookUnderTest;

constexpr std::int64_t kMinute = 60'000;
constexpr std::int64_t kDay = 24 * 60 * kMinute;

/// Offset of local midnight from UTC, in minutes, at the beginning of each day from `from` on.
/// Values of the IANA tz data (file europe, rule EU: last Sundays of March and October, 01:00 UTC):
/// the midnight before the change still has the old offset.
struct Offset {
  const char* from;
  std::int64_t london;
  std::int64_t berlin;
};
constexpr std::array<Offset, 3> kOffsets{
    {{"2025-10-27", 0, 60}, {"2026-03-30", 60, 120}, {"2026-10-26", 0, 60}}};

struct Place {
  const char* zone;
  std::int64_t Offset::*offset;
};
constexpr std::array<Place, 2> kPlaces{
    {{"Europe/London", &Offset::london}, {"Europe/Berlin", &Offset::berlin}}};

Instant utc(const std::string& time) { return base::parse_rfc3339(time)->instant; }

CivilDate date(const char* text) { return *base::parse_date(text); }

/// The first instant of a day.
Instant midnight(CivilDate day, const Place& place) {
  std::int64_t minutes = 0;
  for (const Offset& offset : kOffsets) {
    if (day >= date(offset.from)) minutes = offset.*place.offset;
  }
  return {utc(base::format_date(day) + "T00:00:00Z").ms - minutes * kMinute};
}

/// A moment of that day in both places.
Instant noon(CivilDate day) { return utc(base::format_date(day) + "T12:00:00Z"); }
CivilDate before(CivilDate day, int days) { return base::add_days(day, -days); }

/// A rule by the members that its kind wants.
RulePack pack_of(const std::string& kind, const std::string& members) {
  auto pack = read_pack(
      "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n"
      "[[rules]]\nid = \"own.rule\"\nkind = \"" +
          kind +
          "\"\ncitation = \"ours\"\nedition = \"2026\"\nconfidence = \"text-seen\"\n"
          "sentence = \"As agreed.\"\nclears = \"What was agreed.\"\n" +
          members,
      "local.toml");
  if (!pack) ADD_FAILURE() << base::format_faults(pack.error());
  return *std::move(pack);
}

/// Asks one rule about one book at any moment.
class Asked {
 public:
  Asked(const std::string& kind, const std::string& members, const BookUnderTest& book,
        const Place& place)
      : pack_(pack_of(kind, members)), book_(book), place_(place) {}

  [[nodiscard]] findings::Judgement at(Instant now) const {
    return judge(RuleBook::stacked({&pack_}),
                 Scene(book_.state(), now, *base::Zone::find(place_.zone)));
  }
  [[nodiscard]] bool finds(Severity severity, Instant now) const {
    const auto said = at(now);
    return std::any_of(said.findings.begin(), said.findings.end(),
                       [&](const auto& one) { return one.severity == severity; });
  }
  /// The first millisecond at which it is so, between two moments of which only the later is so.
  [[nodiscard]] std::string first(Instant from, Instant until,
                                  const std::function<bool(Instant)>& is_so) const {
    if (is_so(from)) return "already";
    if (!is_so(until)) return "never";
    while (until.ms - from.ms > 1) {
      const Instant middle{from.ms + (until.ms - from.ms) / 2};
      (is_so(middle) ? until : from) = middle;
    }
    return base::format_rfc3339_utc(until);
  }
  /// When a finding appears: from days before a day to the one after it.
  [[nodiscard]] std::string appears(Severity severity, CivilDate around) const {
    return first({noon(around).ms - 3 * kDay}, {noon(around).ms + kDay},
                 [&](Instant now) { return finds(severity, now); });
  }
  /// When it ends, likewise.
  [[nodiscard]] std::string ends(Severity severity, CivilDate around) const {
    return first({noon(around).ms - kDay}, {noon(around).ms + 3 * kDay},
                 [&](Instant now) { return !finds(severity, now); });
  }

 private:
  RulePack pack_;
  const BookUnderTest& book_;
  const Place& place_;
};

entries::Field day_field(const std::string& name, CivilDate day) { return {name, day}; }

entries::Effect notes(const std::string& thing_class, const std::string& thing,
                      const std::string& kind, entries::Fields fields = {}) {
  return entries::Notes{thing_class, thing, {kind, std::move(fields)}};
}

/// A kind of rule, and the entries by which `last` is the last day on which all is in time.
struct Clock {
  std::string kind;
  std::string figures;  ///< without warn
  std::string members;
  std::function<void(BookUnderTest&, CivilDate last)> enter;
};

const std::string kTenDays = R"(limit = { value = "10", unit = "d" })";

std::vector<Clock> clocks_of_contents() {
  const auto poured = [](BookUnderTest& book, CivilDate last) {
    book.enter(noon(before(last, 10)), {tallies::adds("w1", tallies::ml(5'000))});
  };
  return {
      {"storage-clock", kTenDays, "", poured},
      {"storage-clock", R"(limit = { value = "12", unit = "months" })", "",
       [](BookUnderTest& book, CivilDate last) {
         book.enter(noon({last.year - 1, last.month, last.day}),
                    {tallies::adds("w1", tallies::ml(5'000))});
       }},
      {"content-inspection", kTenDays, R"(settings = { kind = "container-inspection" })", poured},
      {"stored-quantity",
       R"(limit = { value = "1", unit = "l" }, within = { value = "10", unit = "d" })",
       R"(settings = { weighs = "over", per = "site" })", poured},
      {"document-return", kTenDays, R"(settings = { loads = "any" })",
       [](BookUnderTest& book, CivilDate last) {
         book.enter(noon(before(last, 20)), {tallies::adds("w1", tallies::ml(5'000))});
         book.enter(noon(before(last, 10)),
                    {tallies::takes("c1", {{"w1", tallies::ml(5'000), true}})});
       }},
      {"daily-emptying", "", "", [](BookUnderTest& book, CivilDate last) {
         book.enter(
             noon(before(last, 30)),
             {tallies::alters("container", "bin", {tallies::code_field("emptied_daily", "yes")})});
         book.enter(noon(last), {tallies::adds("bin", tallies::kg(1))});
       }}};
}

std::vector<Clock> clocks_of_the_register() {
  const auto enters = [](const std::string& thing_class, const std::string& field) {
    return [thing_class, field](BookUnderTest& book, CivilDate last) {
      book.enter(noon(before(last, 60)),
                 {tallies::enters(thing_class, "x1", {day_field(field, last)})});
    };
  };
  return {{"carrier-expiry", "", "", enters("carrier", "registration_expires")},
          {"replace-by", "", R"(settings = { about = "tool", replace = "replace_by" })",
           enters("tool", "replace_by")},
          {"expiry", "",
           R"(settings = { about = "reference", field = "certificate_expires", item = "it" })",
           enters("reference", "certificate_expires")},
          {"periodic-inspection", R"(interval = { value = "10", unit = "d" })",
           R"(settings = { about = "tool", kind = "tool-inspection" })",
           [](BookUnderTest& book, CivilDate last) {
             book.enter(noon(before(last, 60)), {tallies::enters("tool", "x1", {})});
             book.enter(noon(before(last, 10)),
                        {entries::Checks{
                            "tool", "x1", entries::Outcome::kPassed, {"tool-inspection", {}}}});
           }},
          {"left-open", "",
           R"(settings = { about = "stuck-part", kind = "stuck-part", field = "work_stage",)"
           R"( codes = "opened", item = "work" })",
           [](BookUnderTest& book, CivilDate last) {
             book.enter(noon(last), {notes("stuck-part", "s1", "stuck-part",
                                           {tallies::code_field("work_stage", "opened")})});
           }},
          {"follow-up", "",
           R"(settings = { about = "event", kind = "event", field = "follow_up_by",)"
           R"( closed_by = "action-closed" })",
           [](BookUnderTest& book, CivilDate last) {
             book.enter(noon(before(last, 30)),
                        {notes("event", "e1", "event", {day_field("follow_up_by", last)})});
           }}};
}

std::vector<Clock> clocks() {
  std::vector<Clock> all = clocks_of_contents();
  for (Clock& more : clocks_of_the_register()) all.push_back(std::move(more));
  return all;
}

bool may_warn(const std::string& kind) {
  const auto& figures = find_kind(kind)->figures;
  return std::any_of(figures.begin(), figures.end(),
                     [](const FigureSpec& figure) { return figure.name == "warn"; });
}

std::string figures(const Clock& clock, bool warned) {
  std::string all = clock.figures;
  if (warned) all += std::string(all.empty() ? "" : ", ") + R"(warn = { value = "2", unit = "d" })";
  return all.empty() ? "" : "figures = { " + all + " }\n";
}

/// Two before, on and after each change of the clocks.
constexpr std::array<const char*, 6> kLastDays{"2026-03-28", "2026-03-29", "2026-03-30",
                                               "2026-10-24", "2026-10-25", "2026-10-26"};

TEST(Midnight, IsWhenWhatHasALastDayIsOver) {
  for (const Clock& clock : clocks()) {
    for (const Place& place : kPlaces) {
      for (const char* text : kLastDays) {
        SCOPED_TRACE(clock.kind + " " + clock.figures + " " + place.zone + " " + text);
        const CivilDate last = date(text);
        BookUnderTest book(tallies::usual_register());
        clock.enter(book, last);
        const bool warned = may_warn(clock.kind);
        const Asked asked(clock.kind, figures(clock, warned) + clock.members, book, place);
        EXPECT_EQ(asked.appears(Severity::kOver, last),
                  base::format_rfc3339_utc(midnight(base::add_days(last, 1), place)));
        if (!warned) continue;
        EXPECT_EQ(asked.appears(Severity::kDue, before(last, 2)),
                  base::format_rfc3339_utc(midnight(before(last, 2), place)));
        EXPECT_EQ(asked.ends(Severity::kDue, last),
                  base::format_rfc3339_utc(midnight(base::add_days(last, 1), place)));
      }
    }
  }
}

/// Kinds whose last day is not any day one likes; they have tests of their own below, or (the drift
/// of a gauge) looks to the second in their case.
const std::set<std::string> kOfTheirOwn{"calendar-date", "periodic-test", "gauge-drift",
                                        "month-not-closed"};

TEST(Midnight, IsTriedForEveryKindThatMayWarn) {
  std::set<std::string> tried = kOfTheirOwn;
  for (const Clock& clock : clocks()) tried.insert(clock.kind);
  const std::string kinds = list_kinds();
  std::size_t known = 0;
  for (std::size_t at = 0; at < kinds.size();) {
    const std::size_t end = std::min(kinds.find(", ", at), kinds.size());
    const std::string kind = kinds.substr(at, end - at);
    at = end + 2;
    ++known;
    EXPECT_EQ(may_warn(kind) && !tried.contains(kind), false) << kind;
  }
  EXPECT_GT(known, 30U);
}

TEST(Midnight, ADayOfTheCalendarComesAndGoes) {
  for (const Place& place : kPlaces) {
    for (const char* text : kLastDays) {
      SCOPED_TRACE(std::string(place.zone) + " " + text);
      const CivilDate day = date(text);
      const BookUnderTest book(tallies::usual_register());
      const auto asked = [&](CivilDate first) {
        return Asked("calendar-date",
                     R"(figures = { warn = { value = "2", unit = "d" },)"
                     R"( after = { value = "20", unit = "d" } })"
                     "\nsettings = { item = \"Notice\", first = \"" +
                         base::format_date(first) + "\" }\n",
                     book, place);
      };
      const std::string next = base::format_rfc3339_utc(midnight(base::add_days(day, 1), place));
      EXPECT_EQ(asked(day).appears(Severity::kOver, day), next);
      EXPECT_EQ(asked(base::add_days(day, 2)).appears(Severity::kDue, day),
                base::format_rfc3339_utc(midnight(day, place)));
      EXPECT_EQ(asked(before(day, 20)).ends(Severity::kOver, day), next);
    }
  }
}

TEST(Midnight, AMonthIsToBeClosedSoManyDaysAfterIt) {
  for (const Place& place : kPlaces) {
    for (const auto& [worked, last] :
         {std::pair("2026-02-10", "2026-03-30"), {"2026-09-10", "2026-10-30"}}) {
      SCOPED_TRACE(std::string(place.zone) + " " + worked);
      BookUnderTest book(tallies::usual_register());
      book.enter(noon(date(worked)), {tallies::adds("w1", tallies::ml(5'000))});
      const Asked asked("month-not-closed",
                        R"(figures = { limit = { value = "30", unit = "d" },)"
                        R"( months = { value = "2", unit = "months" },)"
                        R"( warn = { value = "2", unit = "d" } })",
                        book, place);
      EXPECT_EQ(asked.appears(Severity::kDue, before(date(last), 2)),
                base::format_rfc3339_utc(midnight(before(date(last), 2), place)));
      EXPECT_EQ(asked.appears(Severity::kOver, date(last)),
                base::format_rfc3339_utc(midnight(base::add_days(date(last), 1), place)));
    }
  }
}

TEST(Midnight, ATestIsDueToTheEndOfItsMonth) {
  for (const Place& place : kPlaces) {
    for (const auto& [stamp, last] :
         {std::pair("2021-03", "2026-03-31"), {"2021-10", "2026-10-31"}}) {
      SCOPED_TRACE(std::string(place.zone) + " " + stamp);
      BookUnderTest book(tallies::usual_register());
      book.enter(noon(date("2026-01-15")),
                 {tallies::enters("cylinder", "n1",
                                  {tallies::code_field("gas", "nitrogen"),
                                   tallies::text_field("last_test_month", stamp)})});
      // Warned of from before the clocks change.
      const Asked asked("periodic-test",
                        R"(figures = { interval = { value = "5", unit = "years" },)"
                        R"( warn = { value = "2", unit = "d" } })",
                        book, place);
      EXPECT_EQ(asked.appears(Severity::kDue, before(date(last), 2)),
                base::format_rfc3339_utc(midnight(before(date(last), 2), place)));
      EXPECT_EQ(asked.appears(Severity::kOver, date(last)),
                base::format_rfc3339_utc(midnight(base::add_days(date(last), 1), place)));
    }
  }
}

/// Open from Monday to Friday.
BookUnderTest book_of_a_week() {
  entries::List days;
  for (const char* day : {"monday", "tuesday", "wednesday", "thursday", "friday"}) {
    days.rows.push_back({{"weekday", entries::Code{day}}});
  }
  Effects effects = tallies::usual_register();
  effects.push_back(tallies::enters("workshop", "site", {{"opening_days", days}}));
  effects.push_back(
      tallies::alters("container", "bin", {tallies::code_field("emptied_daily", "yes")}));
  return BookUnderTest(effects);
}

TEST(Midnight, WorkingDaysEndAtItToo) {
  const std::string working = "days = \"working\"\n";
  for (const Place& place : kPlaces) {
    // Wednesday and the third open day from it; Saturday and Monday. The clocks change on Sunday.
    for (const auto& [wednesday, saturday, last] :
         {std::array{"2026-03-25", "2026-03-28", "2026-03-30"},
          std::array{"2026-10-21", "2026-10-24", "2026-10-26"}}) {
      SCOPED_TRACE(std::string(place.zone) + " " + last);
      BookUnderTest book = book_of_a_week();
      book.enter(noon(date(wednesday)), {tallies::adds("w1", tallies::ml(100))});
      book.enter(noon(date(saturday)), {tallies::adds("bin", tallies::kg(1))});
      const std::string next =
          base::format_rfc3339_utc(midnight(base::add_days(date(last), 1), place));
      const Asked clock("storage-clock",
                        "figures = { limit = { value = \"3\", unit = \"d\" } }\n" + working, book,
                        place);
      EXPECT_EQ(clock.appears(Severity::kOver, date(last)), next);
      EXPECT_EQ(Asked("daily-emptying", working, book, place).appears(Severity::kOver, date(last)),
                next);
    }
  }
}

}  // namespace
}  // namespace benchwarden::rules
