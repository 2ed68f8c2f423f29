#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "document/bar_chart_layout.h"
#include "document/short_lines.h"

namespace benchwarden::document {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;

TEST(ShortLines, BreakAtBlanksAndWithinLongWordsOnly) {
  EXPECT_THAT(short_lines("used oil drum", 8), ElementsAre("used oil", "drum"));
  EXPECT_THAT(short_lines("Altöl  im\nFaß", 5), ElementsAre("Altöl", "im", "Faß"));
  EXPECT_THAT(short_lines("ÄÖÜäöüß", 3), ElementsAre("ÄÖÜ", "äöü", "ß"));
  EXPECT_THAT(short_lines("abcdef", 3), ElementsAre("abc", "def"));
  EXPECT_THAT(short_lines("", 3), ElementsAre(""));
}

TEST(ShortLines, AreShortenedBySignsNotBytes) {
  EXPECT_EQ(shortened("Altöl", 5), "Altöl");
  EXPECT_EQ(shortened("ÄÖÜäöü", 5), "ÄÖÜä…");
}

BarChart months(std::size_t count) {
  BarChart chart;
  chart.value_label = "Mass, kg";
  for (std::size_t i = 0; i < count; ++i) {
    chart.bars.push_back({"2026-" + std::to_string(10 + i), static_cast<std::int64_t>(i) * 10'000,
                          std::to_string(10 * i) + ".0"});
  }
  return chart;
}

/// The thick grey strokes that fill the bars.
std::vector<ChartStroke> bodies(const ChartLayout& layout) {
  std::vector<ChartStroke> found;
  std::copy_if(layout.strokes.begin(), layout.strokes.end(), std::back_inserter(found),
               [](const ChartStroke& stroke) { return stroke.thickness > 50; });
  return found;
}

TEST(BarChart, IsNothingWithoutBars) {
  const ChartLayout layout = lay_out_bar_chart({});
  EXPECT_EQ(layout.height, 0);
  EXPECT_THAT(layout.strokes, IsEmpty());
}

TEST(BarChart, DrawsBarsAsHighAsTheirValuesFromNoughtOn) {
  const auto drawn = bodies(lay_out_bar_chart(months(3)));
  ASSERT_EQ(drawn.size(), 2U);  // a bar of nothing has no body
  const auto height = [](const ChartStroke& bar) { return bar.y2 - bar.y1; };
  EXPECT_NEAR(static_cast<double>(height(drawn[1])), 2.0 * static_cast<double>(height(drawn[0])),
              2.0);
  EXPECT_EQ(drawn[0].y2, drawn[1].y2);
  EXPECT_LE(drawn[0].grey_percent, 15);
}

TEST(BarChart, NamesEveryBarAndPrintsItsValueAsGiven) {
  for (const std::size_t count : {1U, 6U, 24U}) {
    const BarChart chart = months(count);
    std::vector<std::string> found;
    for (const ChartText& text : lay_out_bar_chart(chart).texts) found.push_back(text.text);
    EXPECT_THAT(found, Contains("Mass, kg"));
    for (const Bar& bar : chart.bars) {
      EXPECT_THAT(found, Contains(bar.name));
      EXPECT_THAT(found, Contains(bar.value_text));
    }
  }
}

TEST(BarChart, TurnsNamesAndValuesThatDoNotFitSideBySide) {
  const auto turned = [](const BarChart& chart) {
    const ChartLayout layout = lay_out_bar_chart(chart);
    return std::count_if(layout.texts.begin(), layout.texts.end(),
                         [](const ChartText& text) { return text.reading == Reading::kUpwards; });
  };
  EXPECT_EQ(turned(months(6)), 0);
  EXPECT_EQ(turned(months(12)), 12);  // the names
  EXPECT_EQ(turned(months(24)), 48);
}

TEST(BarChart, BreaksANameOfWordsWhereThereIsRoom) {
  BarChart chart = months(3);
  chart.bars[0].name = "Mineral suspension oil, free of chlorine";
  std::vector<std::string> found;
  for (const ChartText& text : lay_out_bar_chart(chart).texts) found.push_back(text.text);
  EXPECT_THAT(found, testing::IsSupersetOf({"Mineral suspension oil,", "free of chlorine"}));
}

TEST(BarChart, KeepsStrokesAndShortenedTextsInsideItself) {
  for (const std::size_t count : {1U, 2U, 12U, 24U}) {
    BarChart chart = months(count);
    chart.bars.front().name = std::string(10'000, 'x');
    chart.bars.back().value_text = std::string(300, '8');
    const ChartLayout layout = lay_out_bar_chart(chart);
    for (const ChartStroke& stroke : layout.strokes) {
      const std::int64_t half = stroke.x1 == stroke.x2 ? stroke.thickness / 2 : 0;
      EXPECT_GE(std::min(stroke.x1, stroke.x2) - half, 0);
      EXPECT_LE(std::max(stroke.x1, stroke.x2) + half, kChartWidth);
      EXPECT_GE(std::min(stroke.y1, stroke.y2), 0);
      EXPECT_LE(std::max(stroke.y1, stroke.y2), layout.height);
    }
    for (const ChartText& text : layout.texts) {
      EXPECT_GE(text.y, 0);
      EXPECT_LE(text.y, layout.height);
      EXPECT_LE(text.text.size(), 80U);
    }
  }
}

}  // namespace
}  // namespace benchwarden::document
