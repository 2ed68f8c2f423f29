#include "print/page_flow.h"

#include <gtest/gtest.h>

namespace benchwarden::print {
namespace {

constexpr Mpt kHeight = 100;

Band band(const std::string& text, Mpt height, Keep keep = Keep::kFree) {
  Band made;
  made.height = height;
  made.keep = keep;
  made.draws.emplace_back(TextDraw{0, 0, 3, Weight::kNormal, text});
  return made;
}

std::vector<std::string> cut(const Flow& flow) {
  std::vector<std::string> pages;
  for (const Page& page : cut_into_pages(flow, 50, kHeight)) {
    pages.emplace_back();
    for (const Draw& draw : page.draws) {
      if (const auto* text = std::get_if<TextDraw>(&draw)) {
        pages.back() += text->text;
      }
    }
  }
  return pages;
}

using Pages = std::vector<std::string>;

TEST(PageFlow, GivesOnePageForNothing) { EXPECT_EQ(cut({}), Pages{""}); }

TEST(PageFlow, FillsAPageToItsLastPoint) {
  Flow flow;
  flow.bands = {band("a", 50), band("b", 50), band("c", 1)};
  EXPECT_EQ(cut(flow), (Pages{"ab", "c"}));
}

TEST(PageFlow, LeavesOutTheSpaceAboveTheFirstBandOfAPage) {
  Flow flow;
  flow.bands = {band("a", 60), band("b", 100)};
  flow.bands[1].space_before = 10;
  const auto pages = cut_into_pages(flow, 50, kHeight);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(std::get<TextDraw>(pages[1].draws[0]).y, 0);
}

TEST(PageFlow, PutsTheLargerOfTwoSpacesBetweenBands) {
  Flow flow;
  flow.bands = {band("a", 10), band("b", 10), band("c", 10)};
  flow.bands[0].space_after = 7;
  flow.bands[1].space_before = 3;
  flow.bands[2].space_before = 5;
  const auto pages = cut_into_pages(flow, 50, kHeight);
  ASSERT_EQ(pages.size(), 1U);
  EXPECT_EQ(std::get<TextDraw>(pages[0].draws[1]).y, 17);
  EXPECT_EQ(std::get<TextDraw>(pages[0].draws[2]).y, 32);
}

TEST(PageFlow, KeepsAHeadingWithWhatFollows) {
  Flow flow;
  flow.bands = {band("a", 80), band("H", 10, Keep::kWithNext), band("b", 20)};
  EXPECT_EQ(cut(flow), (Pages{"a", "Hb"}));
}

TEST(PageFlow, BreaksAGroupThatNoPageCanHold) {
  Flow flow;
  flow.bands = {band("a", 60, Keep::kWithNext), band("b", 60, Keep::kWithNext), band("c", 10)};
  EXPECT_EQ(cut(flow), (Pages{"a", "bc"}));
}

TEST(PageFlow, KeepsOfAGroupTooTallForAPageAsMuchAsAPageHolds) {
  Flow flow;
  flow.bands = {band("a", 50), band("H", 20, Keep::kWithNext), band("[", 40, Keep::kWithNext),
                band("r", 60)};
  EXPECT_EQ(cut(flow), (Pages{"a", "H[", "r"}));
}

TEST(PageFlow, RepeatsTheHeadOfATableOnEachPage) {
  Flow flow;
  flow.table_heads = {band("[", 20)};
  flow.bands = {band("[", 20, Keep::kWithNext)};
  for (const char* name : {"a", "b", "c", "d", "e"}) {
    flow.bands.push_back(band(name, 40));
    flow.bands.back().table = 0;
  }
  flow.bands.push_back(band("z", 40));
  EXPECT_EQ(cut(flow), (Pages{"[ab", "[cd", "[ez"}));
}

TEST(PageFlow, DoesNotRepeatATableHeadOverOtherText) {
  Flow flow;
  flow.table_heads = {band("[", 20)};
  flow.bands = {band("[", 20, Keep::kWithNext), band("a", 80), band("z", 40)};
  flow.bands[1].table = 0;
  EXPECT_EQ(cut(flow), (Pages{"[a", "z"}));
}

TEST(PageFlow, StartsANewPageWhereASectionAsksForIt) {
  Flow flow;
  flow.bands = {band("a", 10), band("b", 10), band("c", 10)};
  flow.bands[1].starts_page = true;
  EXPECT_EQ(cut(flow), (Pages{"a", "bc"}));
  flow.bands[0].starts_page = true;
  EXPECT_EQ(cut(flow), (Pages{"a", "bc"}));
}

TEST(PageFlow, CutsABandTallerThanAPageBetweenItsLines) {
  Flow flow;
  Band tall;
  for (Mpt i = 1; i <= 30; ++i) {
    tall.draws.emplace_back(TextDraw{0, 10 * i, 3, Weight::kNormal, "x"});
  }
  tall.height = 301;
  flow.bands = {tall, band("z", 5)};
  const Pages pages = cut(flow);
  std::string all;
  for (const std::string& page : pages) {
    EXPECT_LE(page.size(), 11U);
    all += page;
  }
  EXPECT_EQ(all, std::string(30, 'x') + "z");
  EXPECT_LE(pages.size(), 5U);
}

TEST(PageFlow, DrawsAFrameAroundWhatStandsOnEachPage) {
  Flow flow;
  flow.frames = {{2, 0}};
  flow.bands = {band("a", 60), band("b", 60)};
  flow.bands[0].frame = 0;
  flow.bands[1].frame = 0;
  for (const Page& page : cut_into_pages(flow, 50, kHeight)) {
    Mpt lowest = 0;
    std::size_t lines = 0;
    for (const Draw& draw : page.draws) {
      if (const auto* line = std::get_if<LineDraw>(&draw)) {
        lowest = std::max(lowest, line->y2);
        ++lines;
      }
    }
    EXPECT_EQ(lines, 4U);
    EXPECT_EQ(lowest, 60);
  }
}

TEST(PageFlow, PutsABookmarkWhereItsHeadingStands) {
  Flow flow;
  flow.bands = {band("a", 90), band("H", 20)};
  flow.bands[1].bookmark = document::HeadingPlace{1, "H"};
  const auto pages = cut_into_pages(flow, 50, kHeight);
  ASSERT_EQ(pages.size(), 2U);
  ASSERT_EQ(pages[1].bookmarks.size(), 1U);
  EXPECT_EQ(pages[1].bookmarks[0].y, 0);
}

}  // namespace
}  // namespace benchwarden::print
