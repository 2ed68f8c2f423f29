#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "document/chart_layout.h"
#include "document/chart_scale.h"

namespace benchwarden::document {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

constexpr std::int64_t kDayMs = 86'400'000;
constexpr std::int64_t kMarch2026 = 20'513 * kDayMs;  // 2026-03-01, by `date -u -d @...`

std::vector<std::string> labels(const ChartScale& scale) {
  std::vector<std::string> found;
  for (const Tick& tick : scale.ticks) found.push_back(tick.label);
  return found;
}

std::vector<std::string> texts(const ChartLayout& layout) {
  std::vector<std::string> found;
  for (const ChartText& text : layout.texts) found.push_back(text.text);
  return found;
}

Chart two_checks() {
  Chart chart;
  chart.value_label = "Content, kg";
  chart.time_label = "Days";
  chart.from_zero = true;
  chart.series = {{"content",
                   Mark::kDot,
                   Joined::kSolid,
                   {{{kMarch2026, 8'000}, {kMarch2026 + 30 * kDayMs, 4'000}}}}};
  return chart;
}

TEST(ValueScale, RunsBetweenRoundNumbersWithThePlacesItsStepNeeds) {
  EXPECT_THAT(labels(value_scale(0, 8'400)), ElementsAre("0", "2", "4", "6", "8", "10"));
  EXPECT_THAT(labels(value_scale(-400, 400)),
              ElementsAre("\u22120.4", "\u22120.2", "0.0", "0.2", "0.4"));
  EXPECT_THAT(labels(value_scale(-12, 3)),
              ElementsAre("\u22120.015", "\u22120.010", "\u22120.005", "0.000", "0.005"));
}

TEST(ValueScale, HoldsOneValueToo) {
  const ChartScale scale = value_scale(5'000, 5'000);
  EXPECT_LE(scale.low, 5'000);
  EXPECT_GT(scale.high, scale.low);
}

TEST(TimeScale, MarksDaysThenWeeksThenMonths) {
  EXPECT_THAT(labels(time_scale(kMarch2026, kMarch2026 + 2 * kDayMs)),
              ElementsAre("2026-03-01", "2026-03-02", "2026-03-03"));
  EXPECT_EQ(labels(time_scale(kMarch2026, kMarch2026 + 30 * kDayMs)).size(), 5U);
  EXPECT_THAT(labels(time_scale(kMarch2026, kMarch2026 + 400 * kDayMs)),
              ElementsAre("2026-04", "2026-07", "2026-10", "2027-01", "2027-04"));
}

TEST(TimeScale, HasFewTicksHoweverLongItIs) {
  for (std::int64_t days = 0; days < 40'000; days = days * 5 / 4 + 1) {
    const auto ticks = time_scale(kMarch2026, kMarch2026 + days * kDayMs).ticks.size();
    EXPECT_GE(ticks, 1U) << days;
    EXPECT_LE(ticks, 8U) << days;
  }
}

TEST(ChartLayout, IsNothingWithoutPoints) {
  Chart chart = two_checks();
  chart.series.front().runs = {{}};
  const ChartLayout layout = lay_out_chart(chart);
  EXPECT_EQ(layout.height, 0);
  EXPECT_THAT(layout.strokes, IsEmpty());
}

TEST(ChartLayout, NamesAxesCurvesLimitsAndEvents) {
  Chart chart = two_checks();
  chart.limits = {{"limit", {9'000}}};
  chart.events = {{"filled", {kMarch2026 + 5 * kDayMs}}};
  const auto found = texts(lay_out_chart(chart));
  for (const char* name : {"Content, kg", "Days", "content", "limit", "filled", "10", "0"}) {
    EXPECT_THAT(found, Contains(name));
  }
}

TEST(ChartLayout, KeepsEveryStrokeInsideItself) {
  Chart chart = two_checks();
  chart.limits = {{"limit", {9'000, -9'000}}};
  chart.events = {{"filled", {kMarch2026 - 20 * kDayMs}}};
  for (const Mark mark : {Mark::kNone, Mark::kDot, Mark::kRing, Mark::kTriangle, Mark::kCross}) {
    chart.series.front().mark = mark;
    const ChartLayout layout = lay_out_chart(chart);
    for (const ChartStroke& stroke : layout.strokes) {
      EXPECT_GE(std::min(stroke.x1, stroke.x2), 0);
      EXPECT_LE(std::max(stroke.x1, stroke.x2), kChartWidth);
      EXPECT_GE(std::min(stroke.y1, stroke.y2), 0);
      EXPECT_LE(std::max(stroke.y1, stroke.y2), layout.height);
    }
  }
}

/// Whether a solid line goes down to the right, as the curve of two_checks does.
bool falls(const ChartLayout& layout) {
  return std::any_of(layout.strokes.begin(), layout.strokes.end(), [](const ChartStroke& stroke) {
    return stroke.x2 - stroke.x1 > kChartWidth / 2 && stroke.y2 - stroke.y1 > 500;
  });
}

TEST(ChartLayout, JoinsPointsWithinARunOnly) {
  Chart chart = two_checks();
  EXPECT_TRUE(falls(lay_out_chart(chart)));
  chart.series.front().runs = {{{kMarch2026, 8'000}}, {{kMarch2026 + 30 * kDayMs, 4'000}}};
  EXPECT_FALSE(falls(lay_out_chart(chart)));
}

TEST(ChartLayout, TellsADashedLineFromASolidOne) {
  Chart chart = two_checks();
  const std::size_t solid = lay_out_chart(chart).strokes.size();
  chart.series.front().joined = Joined::kDashed;
  EXPECT_FALSE(falls(lay_out_chart(chart)));
  EXPECT_GT(lay_out_chart(chart).strokes.size(), solid + 50);
}

}  // namespace
}  // namespace benchwarden::document
