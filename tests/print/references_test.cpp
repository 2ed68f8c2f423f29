#include "print/references.h"

#include <gtest/gtest.h>

#include "print/sample.h"

namespace benchwarden::print {
namespace {

LinkDraw link_to(const std::string& anchor) { return {0, 0, 10, 10, anchor}; }

TEST(References, LeadForwardsAndBackwardsToTheFirstPlaceOfAnAnchor) {
  std::vector<Page> pages(3);
  pages[0].draws = {link_to("b")};
  pages[1].anchors = {{"a", 5}, {"b", 7}};
  pages[2].anchors = {{"b", 9}};
  pages[2].draws = {link_to("a")};
  resolve_references(pages, sample_metrics());
  const auto forwards = std::get<LinkDraw>(pages[0].draws.at(0)).target;
  ASSERT_TRUE(forwards);
  EXPECT_EQ(forwards->page, 1U);
  EXPECT_EQ(forwards->y, 7);
  EXPECT_EQ(std::get<LinkDraw>(pages[2].draws.at(0)).target->page, 1U);
}

TEST(References, LeaveOutALinkToNowhereAndKeepTheTextUnderIt) {
  std::vector<Page> pages(1);
  pages[0].draws = {TextDraw{0, 0, 10, Weight::kNormal, "text"}, link_to("nowhere"),
                    PageNumberDraw{0, 100, 0, 10, "nowhere"}};
  resolve_references(pages, sample_metrics());
  ASSERT_EQ(pages[0].draws.size(), 1U);
  EXPECT_EQ(std::get<TextDraw>(pages[0].draws[0]).text, "text");
}

TEST(References, PutPageNumbersAtTheRightWithDotsUpToThem) {
  std::vector<Page> pages(12);
  pages[11].anchors = {{"end", 0}};
  const Mpt right = points(400);
  pages[0].draws = {PageNumberDraw{points(100), right, points(20), points(10), "end"},
                    PageNumberDraw{points(250), right, points(40), points(10), "end"}};
  resolve_references(pages, sample_metrics());
  ASSERT_EQ(pages[0].draws.size(), 4U);
  const auto& dots = std::get<TextDraw>(pages[0].draws[0]);
  const auto& number = std::get<TextDraw>(pages[0].draws[1]);
  EXPECT_EQ(number.text, "12");
  EXPECT_EQ(number.x + sample_metrics().width("12", points(10)), right);
  EXPECT_GE(dots.x, points(100));
  EXPECT_EQ(count(dots.text, " ."), dots.text.size() / 2);
  const auto& fewer = std::get<TextDraw>(pages[0].draws[2]);
  EXPECT_LT(fewer.text.size(), dots.text.size());
  EXPECT_EQ(fewer.x + sample_metrics().width(fewer.text, points(10)),
            dots.x + sample_metrics().width(dots.text, points(10)));
}

}  // namespace
}  // namespace benchwarden::print
