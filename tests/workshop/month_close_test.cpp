// The closing of a month: checked when it comes in, and what came after it told in the report.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/month_views.h"
#include "workshop/report.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;

constexpr base::CivilMonth kOctober{2026, 10};

base::Json figures(const TestWorkshop& workshop) { return *show_month(workshop.ports(), kOctober); }

Told closing(const TestWorkshop& workshop) {
  const base::Json now = figures(workshop);
  return tell("month-close", R"({"month":"2026-10","figures_digest":)" +
                                 value_at(now, "figures_digest") + R"(,"book_size":)" +
                                 value_at(now, "book_size") +
                                 R"(,"statement":"one jug was estimated"})");
}

base::Json report(const TestWorkshop& workshop, const std::string& month) {
  const auto wanted =
      read_report_request({.name = "waste-month", .format = "json", .paper = "a4", .month = month});
  return parsed(make_report(workshop.ports(), *wanted)->bytes);
}

TEST(MonthClose, StandsOnTheFiguresThatWereLookedAt) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  const Told looked_at = closing(workshop);
  workshop.enter(drain("w1", "10", "2026-10-06T09:00:00Z"));
  EXPECT_THAT(faults_of(workshop.send(looked_at)),
              ElementsAre("/fields/figures_digest figures_changed"));
  workshop.enter(closing(workshop));
  EXPECT_THAT(faults_of(workshop.send(closing(workshop))),
              ElementsAre("/fields/month month_closed"));
}

TEST(MonthClose, IsAnsweredTheSameWhenItIsSentAgain) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  const Told told = closing(workshop);
  workshop.enter(told);
  workshop.enter(drain("w1", "10", "2026-10-06T09:00:00Z"));
  EXPECT_TRUE(receipt_of(workshop.send(told)).already_there);
}

TEST(MonthClose, MayHaveItsStatementCorrectedWhenTheFiguresAreOthersAlready) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  const std::string closed = workshop.enter(closing(workshop));
  workshop.enter(drain("w1", "10", "2026-10-06T09:00:00Z"));
  workshop.enter(correct(closed, R"({"statement":"two jugs were estimated"})"));
  EXPECT_EQ(value_at(figures(workshop), "closed/statement"), R"("two jugs were estimated")");
}

// The drain of w1 is entry 12, its closing 13. By hand: 1 250 mL were signed; 1 260 - 250 stand.
TEST(MonthClose, LeavesWhatCameAfterItInTheReportOfThatMonth) {
  const TestWorkshop workshop;
  const std::string first = workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  workshop.enter(closing(workshop));
  EXPECT_EQ(value_at(report(workshop, "2026-10"), "closing/late"), "[]");
  EXPECT_EQ(value_at(report(workshop, "2026-10"), "closing/differences"), "[]");

  workshop.enter(drain("w1", "10", "2026-10-06T09:00:00Z"));
  workshop.enter(correct(first, R"({"volume_ml":1000})"));
  const base::Json told = report(workshop, "2026-10");
  EXPECT_EQ(value_at(told, "closing/entry"), "13");
  EXPECT_EQ(value_at(told, "closing/book_size"), "12");
  EXPECT_EQ(value_at(told, "closing/digest_holds"), "true");
  EXPECT_EQ(value_at(told, "closing/statement"), R"("one jug was estimated")");
  EXPECT_EQ(value_at(told, "closing/late/0/entry"), "14");
  EXPECT_EQ(value_at(told, "closing/late/1"), "");
  EXPECT_EQ(value_at(told, "closing/corrections/0/by/entry"), "15");
  EXPECT_EQ(value_at(told, "closing/differences/0/stream"), R"("oil")");
  EXPECT_EQ(value_at(told, "closing/differences/0/arisen"), R"({"then":1250,"now":1010})");
  EXPECT_EQ(value_at(told, "closing/differences/0/arisen_kg"), R"({"then":1.088,"now":0.879})");
  EXPECT_EQ(value_at(figures(workshop), "closed/entries_since"), "2");
}

TEST(MonthClose, TellsTheMonthInWhichItWasRecordedOfEarlierOnes) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  workshop.enter(closing(workshop));
  workshop.enter(drain("w1", "10", "2026-10-06T09:00:00Z"));
  const base::Json november = report(workshop, "2026-11");
  EXPECT_EQ(value_at(november, "closing"), "null");
  EXPECT_THAT(value_at(november, "data_quality/for_earlier_months"),
              ::testing::HasSubstr(R"("entry":14,)"));
}

TEST(MonthClose, IsOfNoEffectOnceStruckOut) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  const std::string closed = workshop.enter(closing(workshop));
  workshop.enter(strike_out(closed));
  EXPECT_EQ(value_at(figures(workshop), "closed"), "null");
  workshop.enter(closing(workshop));
}

Told closing_of_size(const TestWorkshop& workshop, const std::string& size) {
  return tell("month-close", R"({"month":"2026-10","book_size":)" + size + R"(,"figures_digest":)" +
                                 value_at(figures(workshop), "figures_digest") + "}");
}

// Who signs figures and names a book that is yet to grow hides what comes later; who names an empty
// one makes all that stood there late.
TEST(MonthClose, NamesNoBookInWhichTheFiguresWereOthers) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  for (const char* size : {"999999999999", "13", "11", "0"}) {
    EXPECT_THAT(faults_of(workshop.send(closing_of_size(workshop, size))),
                ElementsAre("/fields/book_size impossible"))
        << size;
  }
  EXPECT_THAT(
      faults_of(workshop.send(tell("month-close", R"({"month":"2026-10","book_size":12})"))),
      ElementsAre("/fields/figures_digest missing"));
  workshop.enter(drain("w1", "1", "2026-11-05T09:00:00Z"));
  workshop.enter(closing_of_size(workshop, "12"));  // as it was looked at, before that entry
}

TEST(MonthClose, KeepsWhatWasSigned) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  const std::string closed = workshop.enter(closing(workshop));
  workshop.enter(drain("w1", "10", "2026-10-06T09:00:00Z"));
  const auto faults = [&](const std::string& fields) {
    return faults_of(workshop.send(correct(closed, fields)));
  };
  const std::string now = value_at(figures(workshop), "figures_digest");
  EXPECT_THAT(faults(R"({"book_size":14})"), ElementsAre("/fields/book_size fixed_attribute"));
  EXPECT_THAT(faults(R"({"figures_digest":)" + now + "}"),
              ElementsAre("/fields/figures_digest fixed_attribute"));
  EXPECT_THAT(faults(R"({"month":"2026-09"})"), ElementsAre("/fields/month fixed_attribute"));
  EXPECT_THAT(
      faults(R"({"cleared":[{"cleared_field":"figures_digest"},{"cleared_field":"book_size"}]})"),
      ElementsAre("/fields/figures_digest fixed_attribute", "/fields/book_size fixed_attribute"));
}

// 1 250 mL at 870 and at 900 kg/m3: 1.0875 and 1.125 kg.
TEST(MonthClose, TellsOfFiguresThatTheRegisterMoved) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  EXPECT_EQ(value_at(figures(workshop), "differences"), "null");
  workshop.enter(closing(workshop));
  EXPECT_EQ(value_at(figures(workshop), "differences"), "[]");
  workshop.enter(tell("register-change", R"({"thing_class":"stream","thing":"oil",)"
                                         R"("act":"changed","density_kg_m3":900})"));
  const base::Json now = figures(workshop);
  EXPECT_EQ(value_at(now, "closed/entries_since"), "0");
  EXPECT_EQ(value_at(now, "differences/0/stream"), R"("oil")");
  EXPECT_EQ(value_at(now, "differences/0/arisen"), R"({"then":1250,"now":1250})");
  EXPECT_EQ(value_at(now, "differences/0/arisen_kg"), R"({"then":1.088,"now":1.125})");
}

TEST(MonthClose, SaysNothingOfADigestItDoesNotHave) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-10-05T09:00:00Z"));
  workshop.enter(tell("month-close", R"({"month":"2026-10"})"));
  EXPECT_EQ(value_at(report(workshop, "2026-10"), "closing/digest_holds"), "null");
}

// The book was begun on 20 November; 1 October in Berlin is the first day of which it tells.
TEST(MonthClose, IsOfNoMonthBeforeTheBook) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1250", "2026-09-30T22:30:00Z"));
  for (const char* month : {"1900-01", "2026-09"}) {
    const Told told = tell("month-close", R"({"month":")" + std::string(month) + R"("})");
    EXPECT_THAT(faults_of(workshop.send(told)), ElementsAre("/fields/month month_before_book"));
  }
  workshop.enter(closing(workshop));
}

TEST(Months, AreListedFromTheFirstWithWasteOn) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "1000", "2026-09-30T21:30:00Z"));
  workshop.enter(drain("w1", "2000", "2026-09-30T22:30:00Z"));  // 1 October in Berlin
  workshop.enter(closing(workshop));
  const auto months = show_months(workshop.ports());
  EXPECT_EQ(value_at(*months, "today"), R"("2026-11-20")");
  EXPECT_EQ(value_at(*months, "months/0/month"), R"("2026-11")");
  EXPECT_EQ(value_at(*months, "months/0/over"), "false");
  EXPECT_EQ(value_at(*months, "months/1/hazardous_total/arisen_kg"), "1.74");
  EXPECT_EQ(value_at(*months, "months/1/closed/person"), R"("p1")");
  EXPECT_EQ(value_at(*months, "months/2/month"), R"("2026-09")");
  EXPECT_EQ(value_at(*months, "months/2/hazardous_total/arisen_kg"), "0.87");
  EXPECT_EQ(value_at(*months, "months/2/closed"), "null");
  EXPECT_EQ(value_at(*months, "months/3"), "");
}

TEST(Months, ThatHaveNotBegunAreNotFound) {
  const TestWorkshop workshop;
  EXPECT_EQ(show_month(workshop.ports(), {2026, 12}).error().code, base::ErrorCode::kNotFound);
  EXPECT_EQ(value_at(*show_month(workshop.ports(), {2026, 11}), "over"), "false");
}

}  // namespace
}  // namespace benchwarden::workshop
