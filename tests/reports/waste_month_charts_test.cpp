#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/fixture.h"
#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

using document::Chart;
using testing::ElementsAre;
using testing::IsEmpty;

WasteMonthFigures with_fillings(const BookUnderTest& book,
                                const std::map<std::string, FillingFigures>& fillings) {
  return make_waste_month({book.state(),
                           kOctober,
                           basis_at("2026-11-05T09:00:00+01:00"),
                           book.entries(),
                           {},
                           {},
                           std::nullopt,
                           std::nullopt,
                           fillings});
}

std::vector<Chart> charts(const WasteMonthFigures& figures) {
  return blocks_of<Chart>(waste_month_document(figures, project_data()));
}

const LevelCourse& course(const WasteMonthFigures& figures, const std::string& container) {
  for (const LevelCourse& one : figures.levels) {
    if (one.container == container) return one;
  }
  throw std::runtime_error("no course of " + container);
}

TEST(WasteMonthCharts, StepTheLevelOnceADayAndAtEachCollection) {
  BookUnderTest book = october_book();
  book.drain("w1", 30'000, "2026-10-28T09:00:00+01:00");
  book.drain("w1", 40'000, "2026-10-28T11:00:00+01:00");
  book.drain("w1", 50'000, "2026-10-28T12:00:00+01:00");
  const LevelCourse w1 = course(figures_of(book, kOctober), "w1");
  EXPECT_EQ(base::format_rfc3339(figures_of(book, kOctober).levels_from),
            "2026-05-01T00:00:00+02:00");
  ASSERT_EQ(w1.collected.size(), 1U);
  std::vector<std::int64_t> levels;
  for (const auto& step : w1.steps) levels.push_back(step.level);
  // 20 Sep; 3, 15 (struck), 18, 20 (read) and 22 Oct; on the 28th before the collection, at it,
  // and at the end of the day.
  EXPECT_THAT(levels, ElementsAre(10'000'000, 10'062'000, 10'062'000, 10'162'000, 10'162'000,
                                  10'362'000, 10'392'000, 5'392'000, 5'482'000));
}

TEST(WasteMonthCharts, BeginWithWhatStoodThereAndEndWithTheMonth) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 2'000'000, "2026-02-01T10:00:00+01:00");
  book.drain("w1", 1'000'000, "2026-10-05T10:00:00+02:00");
  book.drain("w1", 4'000'000, "2026-11-01T10:00:00+01:00");
  const auto drawn = charts(figures_of(book, kOctober));
  ASSERT_EQ(drawn.size(), 1U) << "what held nothing has no chart";
  const auto& points = drawn[0].series.at(0).runs.at(0);
  ASSERT_EQ(points.size(), 4U);
  EXPECT_EQ(points[0].value, 2'000);
  EXPECT_EQ(points[1].value, 2'000);
  EXPECT_EQ(points[2].value, 3'000);
  EXPECT_EQ(points[1].time_ms, points[2].time_ms) << "straight up";
  EXPECT_EQ(points[3].value, 3'000);
  ASSERT_EQ(drawn[0].limits.size(), 1U);
  EXPECT_THAT(drawn[0].limits[0].values, ElementsAre(184'500));  // 90 % of 205 L
  EXPECT_THAT(drawn[0].events, IsEmpty());
}

TEST(WasteMonthCharts, DrawTheForecastDashedToTheLimit) {
  const BookUnderTest book = october_book();
  const FillingFigures filling{base::CivilDate{2026, 12, 1}, base::CivilDate{2027, 1, 10},
                               std::nullopt};
  const auto drawn = charts(with_fillings(book, {{"w1", filling}}));
  const auto& series = drawn.at(0).series;
  ASSERT_EQ(series.size(), 3U);
  EXPECT_EQ(series[1].joined, document::Joined::kDashed);
  ASSERT_EQ(series[1].runs.size(), 1U);
  EXPECT_EQ(series[1].runs[0].front().value, 5'362);
  EXPECT_EQ(series[1].runs[0].back().value, 184'500);
  EXPECT_EQ(series[2].runs.size(), 1U) << "no latest day, no line";
  std::string all;
  for (const auto& paragraph : blocks_of<document::Paragraph>(
           waste_month_document(with_fillings(book, {{"w1", filling}}), project_data())))
    all += paragraph.text + "\n";
  EXPECT_THAT(all, testing::HasSubstr("2027-01-10; in 80 of 100 cases from 2026-12-01 to not "
                                      "bounded."));
}

TEST(WasteMonthCharts, EndAFarForecastAtTheEdge) {
  const FillingFigures far{std::nullopt, base::CivilDate{2028, 11, 1}, std::nullopt};
  const auto drawn = charts(with_fillings(october_book(), {{"w1", far}}));
  const auto& run = drawn.at(0).series.at(1).runs.at(0);
  constexpr std::int64_t kDayMs = 24 * 3'600'000;
  EXPECT_EQ(run.back().time_ms - run.front().time_ms, 184 * kDayMs);
  // 184 of 731 days of the way from 5.362 L to 184.5 L.
  EXPECT_NEAR(static_cast<double>(run.back().value), 5'362 + 179'138 * 184.0 / 731, 1);
}

TEST(WasteMonthCharts, ShowWhatAroseInTwelveMonths) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  const auto bars = blocks_of<document::BarChart>(waste_month_document(figures, project_data()));
  ASSERT_EQ(bars.size(), 2U);
  ASSERT_EQ(bars[0].bars.size(), 12U);
  EXPECT_EQ(bars[0].bars.front().name, "2025-11");
  EXPECT_EQ(bars[0].bars[10].value, 10'000);
  EXPECT_EQ(bars[0].bars[11].value, 553);
  EXPECT_EQ(bars[1].value_label, "Arising, kg");
  const base::Json json = waste_month_json(figures);
  EXPECT_EQ(json.find("arisen_by_month")
                ->array()
                ->at(0)
                .find("months")
                ->array()
                ->at(11)
                .find("arisen")
                ->number()
                ->token,
            "552.5");
}

}  // namespace
}  // namespace benchwarden::reports
