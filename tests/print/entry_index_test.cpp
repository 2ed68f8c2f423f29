#include "print/entry_index.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::ElementsAre;

constexpr Mpt kTextWidth = points(490);
constexpr Mpt kTextHeight = points(600);

/// Pages with rows about these entries.
std::vector<Page> pages_about(const std::vector<std::vector<std::uint64_t>>& entries) {
  std::vector<Page> pages;
  for (const auto& of_page : entries) {
    pages.emplace_back();
    for (const std::uint64_t entry : of_page) pages.back().entries.push_back({entry, 0});
  }
  return pages;
}

/// The texts of the pages from `first` on.
std::vector<std::string> texts_from(const std::vector<Page>& pages, std::size_t first) {
  std::vector<std::string> texts;
  for (; first < pages.size(); ++first) {
    for (const Draw& draw : pages[first].draws) {
      if (const auto* text = std::get_if<TextDraw>(&draw)) texts.push_back(text->text);
    }
  }
  return texts;
}

std::vector<Page> indexed(std::vector<Page> pages) {
  static const Layout layout = sample_layout();
  const Typesetter type(layout, sample_metrics(), kTextWidth);
  add_entry_index(pages, {"Index", "No entry."}, type, kTextHeight);
  return pages;
}

TEST(EntryIndex, NamesEachEntryOnceWithItsPagesAndJoinsThoseThatFollow) {
  const auto pages = indexed(pages_about({{412, 7, 412}, {412}, {412, 9}, {}, {412}}));
  ASSERT_EQ(pages.size(), 6U);
  EXPECT_THAT(texts_from(pages, 5), ElementsAre("Index", "7", "1", "9", "3", "412", "1–3, 5"));
}

TEST(EntryIndex, LeadsToTheFirstRowOfEachRangeOfPages) {
  auto pages = pages_about({{1}, {5}, {5}, {1, 5}});
  pages[1].entries = {{5, 30}, {5, 60}};
  pages = indexed(std::move(pages));
  std::vector<std::string> led_to;
  for (const Draw& draw : pages.back().draws) {
    if (const auto* link = std::get_if<LinkDraw>(&draw)) led_to.push_back(link->anchor);
  }
  ASSERT_EQ(led_to.size(), 3U);  // pages 1 and 4; pages 2 to 4
  ASSERT_FALSE(pages[1].anchors.empty());
  EXPECT_EQ(pages[1].anchors.front().anchor, led_to[2]);
  EXPECT_EQ(pages[1].anchors.front().y, 30);
}

TEST(EntryIndex, SaysWhenThereIsNoEntry) {
  EXPECT_THAT(texts_from(indexed(pages_about({{}})), 1), ElementsAre("Index", "No entry."));
}

TEST(EntryIndex, LosesNoneOfManyEntriesAndStaysOnItsPages) {
  std::vector<std::vector<std::uint64_t>> about(3);
  for (std::uint64_t entry = 1; entry <= 2'000; ++entry) about[entry % 3].push_back(entry);
  const auto pages = indexed(pages_about(about));
  EXPECT_LE(pages.size(), 3U + 6U);
  std::set<Mpt> columns;
  std::size_t numbers = 0;
  for (std::size_t i = 3; i < pages.size(); ++i) {
    for (const Draw& draw : pages[i].draws) {
      const auto* text = std::get_if<TextDraw>(&draw);
      if (text == nullptr) continue;
      EXPECT_LE(text->y, kTextHeight);
      EXPECT_LE(text->x + sample_metrics().width(text->text, text->size), kTextWidth);
      if (text->weight == Weight::kStrong && text->text != "Index") ++numbers;
      if (text->weight == Weight::kNormal) columns.insert(text->x);
    }
  }
  EXPECT_EQ(numbers, 2'000U);
  EXPECT_GE(columns.size(), 6U);
}

TEST(EntryIndex, NamesAnEntryAgainWhereItsPagesDoNotFitOnOneLine) {
  std::vector<std::vector<std::uint64_t>> about(200);
  for (std::size_t page = 0; page < about.size(); page += 2) about[page] = {3};
  const auto texts = texts_from(indexed(pages_about(about)), 200);
  const auto named = std::count(texts.begin(), texts.end(), "3");
  EXPECT_GT(named, 5);
  std::string all;
  for (const std::string& text : texts) all += text + ";";
  EXPECT_THAT(all, testing::HasSubstr("197, 199;"));
}

}  // namespace
}  // namespace benchwarden::print
