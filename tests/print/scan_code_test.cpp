#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "document/qr_code.h"
#include "print/html_chart.h"
#include "print/pdf_outside.h"
#include "print/sample.h"
#include "print/scan_code_bands.h"
#include "print/svg.h"
#include "print/svg_parts.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

const char* const kContent = "container/w1";

Flow scan_code_flow(const document::ScanCode& code) {
  static const Layout layout = sample_layout();
  Flow flow;
  add_scan_code(flow, code, Typesetter(layout, sample_metrics(), points(490)));
  return flow;
}

/// The areas put back onto a grid of modules.
std::vector<std::string> grid_of_areas(const std::vector<Draw>& draws, std::size_t side,
                                       Mpt module) {
  std::vector<std::string> rows(side, std::string(side, '0'));
  for (const Draw& draw : draws) {
    const auto* area = std::get_if<FillDraw>(&draw);
    if (area == nullptr) continue;
    EXPECT_EQ(area->height, module);
    for (Mpt x = area->x; x < area->x + area->width; x += module) {
      rows.at(static_cast<std::size_t>(area->y / module)).at(static_cast<std::size_t>(x / module)) =
          '1';
    }
  }
  return rows;
}

TEST(ScanCode, DrawsExactlyTheDarkModulesRunsJoined) {
  const auto rows = document::qr_code(kContent).value();
  const auto draws = qr_draws(rows, 0, 0, points(2));
  EXPECT_EQ(grid_of_areas(draws, rows.size(), points(2)), rows);
  std::size_t dark = 0;
  for (const std::string& row : rows) dark += count(row, "1");
  EXPECT_LT(draws.size(), dark);
}

TEST(ScanCode, HasModulesOfTwoPointsAndAQuietZoneOfFourWithItsWordsBeside) {
  const Flow flow = scan_code_flow({kContent, {"opens the form"}});
  ASSERT_EQ(flow.bands.size(), 1U);
  const Band& band = flow.bands.front();
  const auto side = static_cast<Mpt>(document::qr_code(kContent).value().size());
  Mpt right = 0;
  Mpt words = 0;
  for (const Draw& draw : band.draws) {
    if (const auto* area = std::get_if<FillDraw>(&draw)) {
      EXPECT_GE(area->height, points(2));
      EXPECT_GE(std::min(area->x, area->y), 4 * area->height);
      right = std::max(right, area->x + area->width);
      EXPECT_GE(band.height, area->y + 5 * area->height - area->height);
    } else if (const auto* text = std::get_if<TextDraw>(&draw)) {
      words = text->x;
    }
  }
  EXPECT_GE(words - right, 4 * (right / (side + 4)));
}

TEST(ScanCode, PrintsItsWordsAloneWhenACodeCannotHoldTheContent) {
  const std::string too_long(3'000, 'x');
  const Flow flow = scan_code_flow({too_long, {"too long"}});
  ASSERT_EQ(flow.bands.size(), 1U);
  ASSERT_EQ(flow.bands[0].draws.size(), 1U);
  EXPECT_EQ(std::get<TextDraw>(flow.bands[0].draws[0]).text, "too long");
  EXPECT_THAT(html_scan_code({too_long, {"too long"}}), Not(HasSubstr("<svg")));
  EXPECT_THAT(html_scan_code({too_long, {"too long"}}), HasSubstr("<p>too long</p>"));
}

TEST(ScanCode, IsAPathWithAWordForTheEarInHtml) {
  const auto rows = document::qr_code(kContent).value();
  const std::string html = html_scan_code({kContent, {"opens <the> form"}});
  EXPECT_THAT(html, HasSubstr("role=\"img\" aria-label=\"container/w1\""));
  EXPECT_THAT(html, HasSubstr(svg_modules(rows)));
  EXPECT_THAT(html, HasSubstr("<p>opens &lt;the&gt; form</p>"));
  EXPECT_EQ(svg_modules({"110", "001"}), "<path d=\"M0 0h2v1h-2zM2 1h1v1h-1z\"/>\n");
}

using ScanCodeOutside = PdfOutside;

TEST_F(ScanCodeOutside, IsReadBackFromThePageByAScanner) {
  document::Document document = sample_document();
  const std::string long_content = "https://workshop.local/container/" + std::string(80, 'x');
  for (const std::string& content : {std::string(kContent), long_content}) {
    document.sections = {{{document::ScanCode{content, {"words beside it"}}}}};
    write(document);
    const std::string image = (folder_ / "page").string();
    for (const char* resolution : {"100", "150", "300"}) {
      ask("pdftoppm -gray -singlefile -r " + std::string(resolution) + " " + path_ + " " + image);
      EXPECT_EQ(ask("zbarimg --quiet --raw " + image + ".pgm 2>/dev/null").text, content + "\n")
          << resolution;
    }
  }
}

}  // namespace
}  // namespace benchwarden::print
