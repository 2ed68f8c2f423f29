#include "document/headings.h"

#include <gtest/gtest.h>

namespace benchwarden::document {
namespace {

std::vector<int> levels_of(const std::vector<int>& wanted) {
  Document document;
  for (const int level : wanted) {
    document.sections.push_back({{Heading{level, "h"}, Paragraph{"text"}}});
  }
  std::vector<int> levels;
  for (const HeadingPlace& place : ordered_headings(document)) {
    levels.push_back(place.level);
  }
  return levels;
}

TEST(Headings, KeepTheirLevelsWhenNoneIsSkipped) {
  EXPECT_EQ(levels_of({1, 2, 3, 3, 2, 1}), (std::vector<int>{1, 2, 3, 3, 2, 1}));
}

TEST(Headings, StepDownOneLevelAtATimeAndKeepSiblingsTogether) {
  EXPECT_EQ(levels_of({1, 3, 3, 1, 2}), (std::vector<int>{1, 2, 2, 1, 2}));
  EXPECT_EQ(levels_of({3, 2, 3}), (std::vector<int>{1, 1, 2}));
}

TEST(Headings, StandInReadingOrderAcrossSections) {
  Document document;
  document.sections.push_back({{Heading{1, "first"}, Heading{2, "second"}}});
  document.sections.push_back({{Heading{1, "third"}}, PageBreak::kBefore});
  const auto places = ordered_headings(document);
  ASSERT_EQ(places.size(), 3U);
  EXPECT_EQ(places[0].text, "first");
  EXPECT_EQ(places[1].text, "second");
  EXPECT_EQ(places[2].text, "third");
}

TEST(Headings, AreNoneInAnEmptyDocument) { EXPECT_TRUE(levels_of({}).empty()); }

}  // namespace
}  // namespace benchwarden::document
