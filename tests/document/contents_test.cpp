#include "document/contents.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchwarden::document {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Document sample() {
  Document document;
  document.sections.push_back({{Heading{1, "before"}, Contents{"Contents", 2}}});
  document.sections.push_back({{Heading{1, "one"}, Heading{2, "two", "two-here"},
                                Heading{3, "three"}, Heading{1, "four"}}});
  return document;
}

std::vector<std::string> texts(const std::vector<ContentsLine>& lines) {
  std::vector<std::string> found;
  for (const ContentsLine& line : lines) found.push_back(line.text + " " + line.anchor);
  return found;
}

TEST(Contents, NamesWhatFollowsDownToItsDepth) {
  const auto headings = ordered_headings(sample());
  EXPECT_THAT(texts(contents_lines({"Contents", 2}, headings, 1, nullptr)),
              ElementsAre("one heading_2", "two two-here", "four heading_5"));
  EXPECT_EQ(contents_lines({"Contents", 4}, headings, 1, nullptr).size(), 4U);
  EXPECT_THAT(contents_lines({"Contents", 2}, headings, 5, nullptr), IsEmpty());
}

TEST(Contents, EndsWithTheIndexOfEntries) {
  Document document = sample();
  EXPECT_EQ(find_entry_index(document), nullptr);
  document.sections.push_back({{EntryIndex{"Index", "none"}}});
  const EntryIndex* index = find_entry_index(document);
  ASSERT_NE(index, nullptr);
  EXPECT_THAT(texts(contents_lines({"Contents", 1}, ordered_headings(document), 1, index)),
              ElementsAre("one heading_2", "four heading_5", "Index entry_index"));
}

}  // namespace
}  // namespace benchwarden::document
