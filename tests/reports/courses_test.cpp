// The courses of histories on pages and for machines: the same rounded figures, and a reason in the
// place of each that is missing.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "print/csv.h"
#include "print/html.h"
#include "reports/course_json.h"
#include "reports/cylinder_history_document.h"
#include "reports/fixture.h"
#include "reports/tool_history_document.h"
#include "reports/untold_words.h"

namespace benchwarden::reports {
namespace {

using findings::CylinderMoment;
using findings::GasContent;
using findings::GasLoss;
using findings::GaugeError;
using findings::GaugeMoment;
using findings::Untold;
using quantities::Mass;
using quantities::Volume;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

HistoryFigures history_of(const std::string& thing_class, const std::string& id) {
  const BookUnderTest book = workshop_book();
  FormTexts forms;
  forms.titles = {{"cylinder-check", "Cylinder check"},
                  {"cylinder-change/change/refilled", "Came back filled"}};
  return make_history(
      {book.state(), thing_class, id, basis_at("2026-11-05T09:00:00+01:00"), {}, {}, {}, forms});
}

CylinderMoment check(std::uint64_t entry, const std::string& when, double kg) {
  CylinderMoment moment;
  moment.entry = entry;
  moment.at = at(when);
  moment.kind = "cylinder-check";
  moment.content = GasContent{Mass(kg), Volume(kg / 1.185)};
  return moment;
}

/// A check, a loss that shows since it, a filling, a check without a temperature.
findings::CylinderCourse eventful() {
  findings::CylinderCourse course{check(20, "2026-10-02T08:00:00+02:00", 8.0625)};
  course.back().loss = Untold::kFirstOfFilling;
  course.push_back(check(21, "2026-10-09T08:00:00+02:00", 7.3));
  const GasLoss loss{20,           at("2026-10-02T08:00:00+02:00"), Mass(0.012), Mass(0.9226),
                     Mass(0.6854), "loss-beyond-uncertainty"};
  course.back().loss = loss;
  course.back().beyond = loss;
  course.push_back(check(22, "2026-10-16T08:00:00+02:00", 11));
  course.back().kind = "cylinder-change";
  course.back().change = "refilled";
  course.back().filling = true;
  course.push_back(check(23, "2026-10-23T08:00:00+02:00", 0));
  course.back().content = Untold::kNoTemperature;
  course.back().loss = Untold::kNoTemperature;
  return course;
}

std::string raw(const document::Table& table, std::size_t row, const std::string& column) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].name != column) continue;
    const document::Cell& cell = table.rows.at(row).cells.at(i);
    return cell.raw.value_or(cell.text);
  }
  return "no such column";
}

TEST(CylinderCourse, HasTheSameFiguresOnThePageAndForMachines) {
  const CylinderHistoryFigures figures{history_of("cylinder", "n1"), eventful()};
  const document::Table course =
      table(cylinder_history_document(figures, project_data()), "course");
  EXPECT_EQ(raw(course, 0, "content_kg"), "8.063");  // halves away from zero
  EXPECT_EQ(raw(course, 0, "verdict"), "first-of-filling");
  EXPECT_EQ(raw(course, 1, "loss_kg"), "0.923");
  EXPECT_EQ(raw(course, 1, "uncertainty_kg"), "0.685");
  EXPECT_EQ(raw(course, 1, "verdict"), "loss-beyond-uncertainty");
  EXPECT_EQ(raw(course, 3, "content_kg"), "");
  EXPECT_EQ(raw(course, 3, "verdict"), "no-temperature");
  const base::Json json = cylinder_history_json(figures);
  const base::Json& first = json.find("course")->array()->at(0);
  EXPECT_EQ(first.find("content_kg")->number()->token, "8.063");
  EXPECT_EQ(first.find("content_m3")->number()->token, raw(course, 0, "content_m3"));
  const base::Json& second = json.find("course")->array()->at(1);
  EXPECT_EQ(base::write_json(*second.find("loss")),
            R"({"since_entry":20,"since":"2026-10-02T08:00:00+02:00","logged_use_kg":0.012,)"
            R"("loss_kg":0.923,"expanded_uncertainty_kg":0.685,)"
            R"("verdict":"loss-beyond-uncertainty"})");
}

TEST(CylinderCourse, NamesAnOlderCheckOnlyWhereTheLossShowsAgainstIt) {
  CylinderHistoryFigures figures{history_of("cylinder", "n1"), eventful()};
  EXPECT_THAT(table(cylinder_history_document(figures, project_data()), "course").rows[1].details,
              IsEmpty());
  figures.course[1].beyond->since_entry = 19;
  EXPECT_THAT(table(cylinder_history_document(figures, project_data()), "course").rows[1].details,
              ElementsAre("Since entry 19 of 2026-10-02: loss 0.923 ± 0.685 kg (k = 2), "
                          "beyond uncertainty."));
}

TEST(CylinderCourse, IsDrawnFillingByFillingWithItsLosses) {
  const CylinderHistoryFigures figures{history_of("cylinder", "n1"), eventful()};
  const auto charts =
      blocks_of<document::Chart>(cylinder_history_document(figures, project_data()));
  ASSERT_EQ(charts.size(), 2U);
  const document::Chart& chart = charts.front();
  ASSERT_EQ(chart.series.size(), 2U);
  ASSERT_EQ(chart.series[0].runs.size(), 2U);
  EXPECT_EQ(chart.series[0].runs[0].size(), 2U);
  EXPECT_EQ(chart.series[0].runs[1].front().value, 11'000);
  EXPECT_EQ(chart.series[1].runs[0].front().value, 7'300);
  EXPECT_EQ(chart.events.front().times_ms.size(), 1U);
  EXPECT_EQ(chart.series[0].runs[0][0].time_ms, at("2026-10-02T08:00:00Z").ms);  // as on the wall
}

TEST(CylinderCourse, SumsUpWhatLeftAgainstWhatWasLogged) {
  const CylinderHistoryFigures figures{history_of("cylinder", "n1"), eventful()};
  const auto charts =
      blocks_of<document::Chart>(cylinder_history_document(figures, project_data()));
  const document::Chart& flow = charts.back();
  ASSERT_EQ(flow.series.size(), 2U);
  std::vector<std::int64_t> gone;
  std::vector<std::int64_t> used;
  for (const auto& run : flow.series[0].runs) {
    for (const auto& point : run) gone.push_back(point.value);
  }
  for (const auto& run : flow.series[1].runs) {
    for (const auto& point : run) used.push_back(point.value);
  }
  // 0.012 kg were logged and 0.923 kg lost beyond; both begin anew with the filling.
  EXPECT_THAT(gone, ElementsAre(0, 935, 0));
  EXPECT_THAT(used, ElementsAre(0, 12, 0));
}

GaugeMoment inspection(std::uint64_t entry, const std::string& when, double as_found) {
  return {entry, at(when), false, {GaugeError{20, as_found, std::nullopt, 0.4, false}}};
}

findings::GaugeCourse drifting() {
  findings::GaugeCourse course;
  course.moments = {inspection(30, "2025-10-19T10:00:00Z", 20),
                    inspection(31, "2026-05-07T10:00:00Z", 20.2)};
  findings::GaugeForecast forecast;
  forecast.reference = 20;
  forecast.error = 0.2;
  forecast.limit = 0.4;
  forecast.inspections = {30, 31};
  forecast.leaves = {2026, 11, 23};
  forecast.line = {{2025, 10, 19}, 0, 0.4};
  course.forecast = forecast;
  return course;
}

TEST(GaugeCourse, SaysWhenItLeavesItsClassAndDrawsIt) {
  const ToolHistoryFigures figures{history_of("gauge", "g1"), drifting()};
  const auto document = tool_history_document(figures, project_data());
  EXPECT_THAT(print::to_html(document),
              HasSubstr("By the line through 2 inspections, the error at 20 bar, last 0.2 bar, "
                        "meets the limit of its class, 0.4 bar, on 2026-11-23."));
  const auto charts = blocks_of<document::Chart>(document);
  ASSERT_EQ(charts.size(), 1U);
  EXPECT_THAT(charts.front().limits.front().values, ElementsAre(400, -400));
  EXPECT_EQ(charts.front().series.back().runs.front().back().value, 400);
  EXPECT_EQ(raw(table(document, "course"), 1, "error_bar"), "0.2");
  const base::Json json = tool_history_json(figures);
  EXPECT_EQ(json.find("forecast")->find("leaves")->string()->substr(0, 10), "2026-11-23");
}

TEST(GaugeCourse, BeginsAnewAtAnAdjustment) {
  ToolHistoryFigures figures{history_of("gauge", "g1"), drifting()};
  figures.course.moments[0].adjusted = true;
  figures.course.moments[0].points[0].as_left = 20.05;
  figures.course.forecast = Untold::kAdjusted;
  const auto document = tool_history_document(figures, project_data());
  const document::Chart chart = blocks_of<document::Chart>(document).front();
  EXPECT_EQ(chart.series[0].runs.size(), 2U);
  EXPECT_EQ(chart.series[1].runs[0][0].value, 50);
  EXPECT_EQ(chart.events.size(), 1U);
  EXPECT_THAT(print::to_html(document), HasSubstr("is given: adjusted at the last inspection."));
}

TEST(Courses, PrintWithNoData) {
  const auto cylinder =
      cylinder_history_document({history_of("cylinder", "n9"), {}}, project_data());
  EXPECT_THAT(print::to_html(cylinder), HasSubstr("No check, change or use is recorded."));
  const auto gauge = tool_history_document({history_of("tool", "r9"), {}}, project_data());
  EXPECT_THAT(print::to_html(gauge), HasSubstr("No pressure was compared with a reference."));
  EXPECT_EQ(gauge.furniture.period, "Tool r9");
  EXPECT_THAT(print::to_csv(gauge), testing::Not(HasSubstr("course,")));
}

TEST(Courses, HaveWordsForEachReasonAndVerdict) {
  const ReportWording& wording = project_data().wording;
  std::set<std::string> words;
  for (int i = 0; i <= static_cast<int>(Untold::kTooFarAhead); ++i) {
    words.insert(untold_words(static_cast<Untold>(i), wording));
    words.insert(std::string(code_of(static_cast<Untold>(i))));
  }
  EXPECT_EQ(words.size(), 2U * (static_cast<std::size_t>(Untold::kTooFarAhead) + 1));
  EXPECT_EQ(verdict_words("loss-beyond-uncertainty", wording), "loss beyond uncertainty");
  EXPECT_EQ(verdict_words("no-evidence-of-loss", wording), "no evidence of loss");
  EXPECT_EQ(verdict_words("cannot-tell", wording), "cannot tell");
}

}  // namespace
}  // namespace benchwarden::reports
