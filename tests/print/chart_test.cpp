// A chart on paper and on its web page: the same words, and lines in black and grey only.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "document/chart_layout.h"
#include "print/csv.h"
#include "print/document_flow.h"
#include "print/html.h"
#include "print/html_chart.h"
#include "print/pdf.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr std::int64_t kDayMs = 86'400'000;

document::Chart sample_chart() {
  document::Chart chart;
  chart.caption = "Content & loss";
  chart.value_label = "Content, kg";
  chart.time_label = "Days";
  chart.series = {{"by each check",
                   document::Mark::kDot,
                   document::Joined::kSolid,
                   {{{20'513 * kDayMs, 8'000}, {20'600 * kDayMs, 4'000}}}}};
  chart.limits = {{"limit", {2'000}}};
  return chart;
}

document::Document with_chart(document::Chart chart) {
  document::Document document = sample_document();
  document.sections = {{{std::move(chart)}}};
  return document;
}

TEST(Chart, IsAnSvgOfTheLayoutInHtml) {
  const std::string html = html_chart(sample_chart());
  EXPECT_THAT(html, HasSubstr("<figcaption>Content &amp; loss</figcaption>"));
  EXPECT_THAT(html, HasSubstr("role=\"img\" aria-label=\"Content &amp; loss\""));
  EXPECT_THAT(html, HasSubstr(">by each check</text>"));
  EXPECT_THAT(html, HasSubstr(" text-anchor=\"middle\">2026-04-10</text>"));
  EXPECT_THAT(html, HasSubstr("stroke=\"#000000\""));
  EXPECT_THAT(html, Not(HasSubstr("style=")));
  EXPECT_THAT(to_html(with_chart(sample_chart())), HasSubstr(html));
}

TEST(Chart, IsNothingWithoutPoints) {
  document::Chart chart = sample_chart();
  chart.series.clear();
  EXPECT_EQ(html_chart(chart), "");
  const Layout layout = sample_layout();
  const Typesetter type(layout, sample_metrics(), points(500));
  EXPECT_EQ(flow_of(with_chart(chart), type)->bands.size(), 1U);  // the title
}

TEST(Chart, StaysWithinItsBandOnPaper) {
  const Layout layout = sample_layout();
  const Typesetter type(layout, sample_metrics(), points(500));
  const auto flow = flow_of(with_chart(sample_chart()), type);
  const Band& band = flow->bands.back();
  std::size_t lines = 0;
  std::vector<std::string> words;
  for (const Draw& draw : band.draws) {
    if (const auto* line = std::get_if<LineDraw>(&draw)) {
      ++lines;
      EXPECT_LE(std::max(line->x1, line->x2), type.width());
      EXPECT_LE(std::max(line->y1, line->y2), band.height);
    } else if (const auto* text = std::get_if<TextDraw>(&draw)) {
      EXPECT_GE(text->x, 0);
      EXPECT_LE(text->x + type.width_of(text->text, text->size), type.width());
      words.push_back(text->text);
    }
  }
  EXPECT_EQ(lines, document::lay_out_chart(sample_chart()).strokes.size());
  EXPECT_THAT(words,
              testing::IsSupersetOf({"Content & loss", "Content, kg", "limit", "2026-04-10"}));
}

TEST(Chart, IsTheSameBytesTwice) {
  const auto pdf = to_pdf(with_chart(sample_chart()), sample_options());
  ASSERT_TRUE(pdf.ok());
  EXPECT_EQ(*pdf, *to_pdf(with_chart(sample_chart()), sample_options()));
}

TEST(Chart, LeavesItsFiguresToTheTableBesideIt) {
  EXPECT_EQ(to_csv(with_chart(sample_chart())), "table,row,column,value,unit\r\n");
}

}  // namespace
}  // namespace benchwarden::print
