#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/month_views.h"
#include "workshop/report.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using base::ErrorCode;
using ::testing::HasSubstr;

ReportRequest wanted(const std::string& name, const std::string& format, const std::string& about) {
  ReportWords words{name, format, "a4"};
  (name == "waste-year" ? words.year : words.subject) = about;
  auto request = read_report_request(words);
  if (!request) {
    ADD_FAILURE() << request.error().detail;
    return {};
  }
  return *std::move(request);
}

base::Json made(const TestWorkshop& workshop, const std::string& name, const std::string& about) {
  const auto file = make_report(workshop.ports(), wanted(name, "json", about));
  if (!file) {
    ADD_FAILURE() << file.error().detail;
    return {};
  }
  return parsed(file->bytes);
}

Told site_of(const std::string& pack) {
  return tell(
      "register-change",
      R"({"act":"changed","thing_class":"workshop","thing":"site","rule_pack":")" + pack + R"("})",
      "2026-01-02T08:00:00Z");
}

TEST(WasteYearReport, SumsTheYearInEveryFormat) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "300", "2026-10-30T09:00:00Z"));
  workshop.enter(drain("w1", "500", "2026-11-02T09:00:00Z"));
  const base::Json year = made(workshop, "waste-year", "2026");
  EXPECT_EQ(value_at(year, "streams/0/arisen"), "800");
  EXPECT_EQ(value_at(year, "streams/0/months/9/arisen"), "300");
  for (const char* format : {"pdf", "html", "csv"}) {
    const auto file = make_report(workshop.ports(), wanted("waste-year", format, "2026"));
    ASSERT_TRUE(file.ok()) << format;
    EXPECT_EQ(file->file_name, std::string("waste-year-2026.") + format);
    const auto again = make_report(workshop.ports(), wanted("waste-year", format, "2026"));
    EXPECT_TRUE(again.ok() && again->bytes == file->bytes) << format;
  }
}

TEST(WasteYearReport, TellsReturnsOfThePackInForce) {
  const TestWorkshop workshop;
  workshop.enter(site_of("eu-generic"));
  workshop.enter(drain("w1", "5000", "2026-10-30T09:00:00Z"));
  const base::Json year = made(workshop, "waste-year", "2026");
  EXPECT_EQ(value_at(year, "returns/0/return"), R"("record-arisen")");
  EXPECT_EQ(value_at(year, "returns/0/unit"), R"("t")");
  EXPECT_EQ(value_at(year, "returns/0/lines/0/amount"), "0.004") << "5 L at 870 kg/m³: 4.35 kg";
  EXPECT_EQ(value_at(year, "generator_months"), "[]") << "no rule counts them";
}

// 40 CFR 262.13 Table 1: up to 100 kg in a month very small, from 1000 kg on large.
TEST(WasteYearReport, TellsTheCategoryOfEachMonthWhateverIsNotified) {
  const TestWorkshop workshop;
  workshop.enter(site_of("us-federal"));
  const auto fill = [&](const std::string& kilograms, const std::string& day) {
    workshop.enter(tell("rag-bin",
                        R"({"container":"drum","bin_act":"added","contaminant":"solvent",)"
                        R"("mass_kg":)" +
                            kilograms + "}",
                        day + "T09:00:00Z"));
  };
  for (int time = 0; time < 4; ++time) {
    fill("25", "2026-08-05");
    fill("25", "2026-09-05");
  }
  fill("0.5", "2026-09-06");
  for (int time = 0; time < 40; ++time) fill("25", "2026-10-05");
  const base::Json year = made(workshop, "waste-year", "2026");
  EXPECT_EQ(value_at(year, "generator_months/6/category"), R"("vsqg")");
  EXPECT_EQ(value_at(year, "generator_months/7/category"), R"("vsqg")");
  EXPECT_EQ(value_at(year, "generator_months/8/category"), R"("sqg")");
  EXPECT_EQ(value_at(year, "generator_months/9/category"), R"("lqg")");
  EXPECT_EQ(value_at(year, "generator_months/9/not_acute"), "1000000");
  EXPECT_EQ(value_at(year, "generator_months/11"), "") << "it has not begun";
}

TEST(WasteYearReport, SaysWhetherAClosedMonthIsAsItWasSigned) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "300", "2026-10-30T09:00:00Z"));
  const auto month = show_month(workshop.ports(), {2026, 10});
  ASSERT_TRUE(month.ok());
  const std::string digest = value_at(*month, "figures_digest");
  workshop.enter(tell("month-close", R"({"month":"2026-10","figures_digest":)" + digest +
                                         R"(,"book_size":)" + std::to_string(workshop.size()) +
                                         "}"));
  EXPECT_EQ(value_at(made(workshop, "waste-year", "2026"), "months/9/closed/figures_as_signed"),
            "true");
  workshop.enter(drain("w1", "5", "2026-10-31T09:00:00Z"));
  const base::Json year = made(workshop, "waste-year", "2026");
  EXPECT_EQ(value_at(year, "months/9/closed/figures_as_signed"), "false");
  EXPECT_EQ(value_at(year, "months/8/closed"), "null");
}

TEST(WasteYearReport, HoldsAClosingWithoutADigestAgainstTheBookItStandsOn) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "300", "2026-10-30T09:00:00Z"));
  workshop.enter(tell("month-close", R"({"month":"2026-10"})"));
  EXPECT_EQ(value_at(made(workshop, "waste-year", "2026"), "months/9/closed/figures_as_signed"),
            "true");
  workshop.enter(drain("w1", "5", "2026-10-31T09:00:00Z"));
  EXPECT_EQ(value_at(made(workshop, "waste-year", "2026"), "months/9/closed/figures_as_signed"),
            "false");
}

TEST(WasteYearReport, TellsNoCategoryOfAMonthWithWasteOfNoKnownMass) {
  const TestWorkshop workshop;
  workshop.enter(site_of("us-federal"));
  workshop.enter(tell("register-change",
                      R"({"act":"added","thing_class":"stream","thing":"water","name":"Water",)"
                      R"("low_code":"13 05 07","counted_by":"volume","hazardous":"yes"})",
                      "2026-01-02T08:00:00Z"));
  workshop.enter(tell("register-change",
                      R"({"act":"added","thing_class":"container","thing":"t1","name":"Tank",)"
                      R"("stream":"water","counts_waste":"yes","capacity_l":60,)"
                      R"("working_limit_percent":90})",
                      "2026-01-02T08:00:00Z"));
  workshop.enter(drain("t1", "100", "2026-09-05T09:00:00Z"));
  const base::Json year = made(workshop, "waste-year", "2026");
  EXPECT_EQ(value_at(year, "generator_months/7/category"), R"("vsqg")");
  EXPECT_EQ(value_at(year, "generator_months/8/category"), "null");
  EXPECT_EQ(value_at(year, "generator_months/8/unweighed"), "true");
}

TEST(WasteYearReport, HasTheScalesBesideTheMassesOfAReturnOfWhatWasCollected) {
  const TestWorkshop workshop;
  workshop.enter(site_of("england"));
  workshop.enter(drain("w1", "4000", "2026-11-02T09:00:00Z"));
  workshop.enter(
      tell("collection",
           R"({"collection":"c1","stage":"taken","carrier":"k1","document_number":"CN-1",)"
           R"("loads":[{"container":"w1","volume_ml":4000}]})",
           "2026-11-03T09:00:00Z"));
  const auto weighed = [&] {
    return value_at(made(workshop, "waste-year", "2026"), "returns/0/lines/6/weighed");
  };
  EXPECT_EQ(weighed(), "null");
  workshop.enter(tell("collection",
                      R"({"collection":"c1","stage":"weighed",)"
                      R"("loads":[{"container":"w1","mass_kg":3.6}]})",
                      "2026-11-04T09:00:00Z"));
  EXPECT_EQ(weighed(), "3.6");
}

TEST(CollectionSheetReport, IsMadeFromThePlanAndFromTheTaking) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "4000", "2026-11-02T09:00:00Z"));
  EXPECT_EQ(make_report(workshop.ports(), wanted("collection-sheet", "pdf", "c1")).error().code,
            ErrorCode::kNotFound);
  workshop.enter(tell("collection",
                      R"({"collection":"c1","stage":"planned","carrier":"k1",)"
                      R"("planned_date":"2026-11-25",)"
                      R"("loads":[{"container":"w1","volume_ml":4000}]})",
                      "2026-11-10T09:00:00Z"));
  const base::Json draft = made(workshop, "collection-sheet", "c1");
  EXPECT_EQ(value_at(draft, "state"), R"("draft")");
  EXPECT_EQ(value_at(draft, "planned_for"), R"("2026-11-25")");
  EXPECT_EQ(value_at(draft, "loads/0/mass_kg"), "3.48");
  workshop.enter(tell("collection",
                      R"({"collection":"c1","stage":"taken","carrier":"k1",)"
                      R"("document_number":"CN-1",)"
                      R"("loads":[{"container":"w1","volume_ml":3900,"emptied":"yes"}]})",
                      "2026-11-19T09:00:00Z"));
  const base::Json taken = made(workshop, "collection-sheet", "c1");
  EXPECT_EQ(value_at(taken, "state"), R"("taken")");
  EXPECT_EQ(value_at(taken, "total_volume_ml"), "3900");
  EXPECT_EQ(value_at(taken, "stages/1/fields/document_number"), R"("CN-1")");
  const auto html = make_report(workshop.ports(), wanted("collection-sheet", "html", "c1"));
  ASSERT_TRUE(html.ok());
  EXPECT_EQ(html->file_name, "collection-sheet-c1.html");
  EXPECT_THAT(html->bytes, HasSubstr("Planned and not taken, or refused: none"));
}

TEST(CollectionSheetReport, IsBoundIntoThePackOfTheDaysItWasTakenOn) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "4000", "2026-11-02T09:00:00Z"));
  workshop.enter(tell("collection",
                      R"({"collection":"c1","stage":"taken","carrier":"k1",)"
                      R"("document_number":"CN-1",)"
                      R"("loads":[{"container":"w1","volume_ml":3900}]})",
                      "2026-11-19T09:00:00Z"));
  const auto bound = [&](const std::string& from, const std::string& to) {
    const auto request = read_report_request(
        {.name = "audit-pack", .format = "json", .paper = "a4", .from = from, .to = to});
    return make_report(workshop.ports(), *request).value().bytes;
  };
  EXPECT_THAT(bound("2026-11-01", "2026-11-20"), HasSubstr("collection-sheet/collection/c1"));
  EXPECT_THAT(bound("2026-10-01", "2026-10-31"),
              ::testing::Not(HasSubstr("collection-sheet/collection/c1")));
}

TEST(WasteMonthReport, SaysWhatIsPlannedAndHowMuchIsOpen) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "4000", "2026-11-02T09:00:00Z"));
  for (const auto& [id, day] : {std::pair{"c1", "2026-12-09"}, {"c2", "2026-11-30"}}) {
    workshop.enter(tell("collection", R"({"collection":")" + std::string(id) +
                                          R"(","stage":"planned","planned_date":")" + day +
                                          R"("})"));
  }
  ReportWords words{"waste-month", "json", "a4"};
  words.month = "2026-11";
  const auto file = make_report(workshop.ports(), *read_report_request(words));
  ASSERT_TRUE(file.ok());
  const base::Json json = parsed(file->bytes);
  EXPECT_EQ(value_at(json, "outlook/next_collection/collection"), R"("c2")");
  EXPECT_EQ(value_at(json, "outlook/next_collection/day"), R"("2026-11-30")");
  EXPECT_NE(value_at(json, "outlook/findings_over"), "");
  EXPECT_EQ(value_at(json, "forecasts/0/container"), R"("w1")");
  EXPECT_EQ(value_at(json, "forecasts/0/median"), "null") << "too little came in";
}

}  // namespace
}  // namespace benchwarden::workshop
