// What is filled in by hand: boxes large enough to tick, lines with room to write, on paper and in
// the accessible twin.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "print/checklist_bands.h"
#include "print/csv.h"
#include "print/html_checklist.h"
#include "print/page_flow.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;

constexpr Mpt kListWidth = points(490);

document::Checklist two_items() {
  return {"Walk round",
          {{"Drums stand in the tray", {"yes", "no"}}, {"Pressure of N2 & its hose", {}, "bar"}}};
}

Flow checklist_flow(const document::Checklist& list) {
  static const Layout layout = sample_layout();
  Flow flow;
  add_checklist(flow, list, Typesetter(layout, sample_metrics(), kListWidth));
  return flow;
}

const TextDraw* find_text(const Band& band, const std::string& text) {
  for (const Draw& draw : band.draws) {
    const auto* found = std::get_if<TextDraw>(&draw);
    if (found != nullptr && found->text == text) return found;
  }
  return nullptr;
}

/// Black lines that go across, from left to right as they are drawn.
std::vector<LineDraw> black_level_lines(const Band& band) {
  std::vector<LineDraw> lines;
  for (const Draw& draw : band.draws) {
    const auto* line = std::get_if<LineDraw>(&draw);
    if (line != nullptr && line->y1 == line->y2 && line->grey_percent == 100)
      lines.push_back(*line);
  }
  return lines;
}

TEST(Checklist, HasABandForItsCaptionAndOneForEachItem) {
  const Flow flow = checklist_flow(two_items());
  ASSERT_EQ(flow.bands.size(), 3U);
  EXPECT_EQ(flow.bands[0].keep, Keep::kWithNext);
  EXPECT_EQ(flow.bands[1].keep, Keep::kFree);
}

TEST(Checklist, PutsABoxOfAtLeastFiveMillimetresBeforeEachAnswer) {
  const Flow flow = checklist_flow(two_items());
  const auto edges = black_level_lines(flow.bands[1]);
  ASSERT_EQ(edges.size(), 4U);  // upper and lower edge of two boxes
  for (const LineDraw& edge : edges) {
    EXPECT_GE(edge.x2 - edge.x1, from_micrometres(5'000));
    EXPECT_GE(edge.thickness, 750);
  }
  EXPECT_GE(edges[1].y1 - edges[0].y1, from_micrometres(5'000));
  const TextDraw* yes = find_text(flow.bands[1], "yes");
  const TextDraw* no = find_text(flow.bands[1], "no");
  ASSERT_TRUE(yes != nullptr && no != nullptr);
  EXPECT_GT(yes->x, edges[0].x2);
  EXPECT_LT(yes->x, edges[2].x1);
  EXPECT_GT(no->x, edges[2].x2);
}

TEST(Checklist, IsNamedAgainWhereItGoesOnOnAnotherPage) {
  document::Checklist list = two_items();
  list.continued = "Walk round … continued";
  const Flow flow = checklist_flow(list);
  const Mpt room = flow.bands[0].height + flow.bands[1].height + flow.bands[2].height / 2;
  const auto pages = cut_into_pages(flow, kListWidth, room);
  ASSERT_EQ(pages.size(), 2U);
  const auto texts = [](const Page& page) {
    std::vector<std::string> found;
    for (const Draw& draw : page.draws) {
      if (const auto* text = std::get_if<TextDraw>(&draw)) found.push_back(text->text);
    }
    return found;
  };
  EXPECT_THAT(texts(pages[0]), testing::Contains("Walk round"));
  EXPECT_THAT(texts(pages[0]), testing::Not(testing::Contains(HasSubstr("continued"))));
  EXPECT_EQ(texts(pages[1]).front(), "Walk round … continued");
}

TEST(Checklist, LeavesRoomAboveTheLineToWriteOn) {
  const Band item = checklist_flow(two_items()).bands[2];
  const auto lines = black_level_lines(item);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_GE(lines[0].y1, from_micrometres(8'000));
  EXPECT_GE(lines[0].x2 - lines[0].x1, from_micrometres(20'000));
  const TextDraw* unit = find_text(item, "bar");
  ASSERT_NE(unit, nullptr);
  EXPECT_GT(unit->x, lines[0].x2);
}

TEST(Checklist, StaysOnThePageWhateverItAsks) {
  const std::string long_word(400, 'W');
  document::Checklist list{long_word,
                           {{long_word, {long_word, "b", "c", long_word, "e"}, long_word},
                            {"x", {"1", "2", "3", "4", "5", "6", "7", "8", "9", "10"}, "bar"}}};
  for (const Band& band : checklist_flow(list).bands) {
    for (const Draw& draw : band.draws) {
      if (const auto* text = std::get_if<TextDraw>(&draw)) {
        EXPECT_GE(text->x, 0);
        EXPECT_LE(text->x + sample_metrics().width(text->text, text->size), kListWidth);
        EXPECT_LE(text->y, band.height);
      } else if (const auto* line = std::get_if<LineDraw>(&draw)) {
        EXPECT_LE(std::max(line->x1, line->x2), kListWidth);
        EXPECT_LE(std::max(line->y1, line->y2), band.height);
      }
    }
  }
}

TEST(Checklist, IsATableWithRealTextInHtmlAndNothingInCsv) {
  const std::string html = html_checklist(two_items());
  EXPECT_THAT(html, HasSubstr("<caption>Walk round</caption>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\">Drums stand in the tray</th>"));
  EXPECT_THAT(html, HasSubstr("<span class=\"answer\">☐ yes</span>"));
  EXPECT_THAT(html, HasSubstr("N2 &amp; its hose"));
  EXPECT_THAT(html, HasSubstr("<span class=\"write\"></span> bar"));
  EXPECT_EQ(html_checklist({}), "");
  document::Document document;
  document.sections = {{{two_items()}}};
  EXPECT_EQ(to_csv(document), "table,row,column,value,unit\r\n");
}

TEST(Checklist, IsNothingWithoutItems) { EXPECT_TRUE(checklist_flow({"Empty", {}}).bands.empty()); }

}  // namespace
}  // namespace benchwarden::print
