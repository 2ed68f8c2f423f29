#include "print/svg.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "print/block_samples.h"
#include "print/html_chart.h"
#include "print/pdf_outside.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

document::Document with_drawings() {
  document::Document document = sample_document();
  document.title = "Oil & loss";
  document.sections = {{{document::Heading{1, "Oil"}, sample_bars(3), sample_bars(24),
                         document::ScanCode{"container/w1", {"container/w1"}}}}};
  return document;
}

TEST(Svg, IsNothingWhereNothingIsDrawn) {
  EXPECT_EQ(to_svg({}), "");
  EXPECT_EQ(to_svg(sample_document()), "");
}

TEST(Svg, HasItsLanguageTitleAndEveryDrawingUnderItsCaption) {
  const std::string svg = to_svg(with_drawings());
  EXPECT_THAT(svg, StartsWith("<svg xmlns=\"http://www.w3.org/2000/svg\" xml:lang=\"en\""));
  EXPECT_THAT(svg, HasSubstr("<title>Oil &amp; loss</title>"));
  EXPECT_THAT(svg, HasSubstr("<desc>Saltmarsh Damper Works, Quay Lane 4, Saltmarsh; 1 to 31"));
  EXPECT_EQ(count(svg, ">Used oil collected, by month</text>"), 2U);
  EXPECT_EQ(count(svg, "<path "), 1U);
  EXPECT_EQ(count(svg, "<svg"), 1U);
}

TEST(Svg, DrawsAChartAsTheWebPageDoes) {
  const std::string html = html_bar_chart(sample_bars(3));
  const std::size_t first = html.find("<line");
  const std::string drawn = html.substr(first, html.find("</svg>") - first);
  EXPECT_GT(count(drawn, "<line"), 10U);
  EXPECT_THAT(to_svg(with_drawings()), HasSubstr(drawn));
}

TEST(Svg, StacksItsDrawingsOneBelowTheOtherWithinItsHeight) {
  const std::string svg = to_svg(with_drawings());
  std::int64_t last = -1;
  for (std::size_t at = svg.find("translate("); at != std::string::npos;
       at = svg.find("translate(", at + 1)) {
    const std::int64_t y = std::stoll(svg.substr(svg.find(' ', at)));
    EXPECT_GT(y, last);
    last = y;
  }
  const std::size_t box = svg.find("viewBox=\"-200 -200 10400 ") + 25;
  EXPECT_GT(std::stoll(svg.substr(box)), last);
}

TEST(Svg, IsTheSameTwice) { EXPECT_EQ(to_svg(with_drawings()), to_svg(with_drawings())); }

using SvgOutside = PdfOutside;

TEST_F(SvgOutside, IsWellFormedWhateverItSays) {
  const std::string path = (folder_ / "drawing.svg").string();
  for (const std::string& text :
       {std::string("plain"), std::string("]]></text>\x01\xFF&amp;\n\"'<b>"),
        std::string(10'000, 'W')}) {
    std::ofstream(path, std::ios::binary) << to_svg(every_block_saying(text));
    const Answer check =
        ask("/usr/bin/python3 -c 'import sys, xml.dom.minidom as m; "
            "print(m.parse(sys.argv[1]).documentElement.tagName)' " +
            path + " 2>&1");
    EXPECT_EQ(check.text, "svg\n");
  }
}

}  // namespace
}  // namespace benchwarden::print
