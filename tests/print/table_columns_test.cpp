#include "print/table_columns.h"

#include <gtest/gtest.h>

#include "print/sample.h"

namespace benchwarden::print {
namespace {

using document::Align;
constexpr Mpt kSize = points(9);
constexpr Mpt kWidth = points(490);

document::Table table_of(const std::vector<Align>& aligns,
                         const std::vector<std::vector<std::string>>& rows) {
  document::Table table;
  for (const Align align : aligns) {
    table.columns.push_back({"h", "", align});
  }
  for (const auto& texts : rows) {
    document::Row row;
    for (const std::string& text : texts) {
      row.cells.push_back({text});
    }
    table.rows.push_back(row);
  }
  return table;
}

std::vector<ColumnPlace> places_of(const document::Table& table) {
  return place_columns(table, kWidth, kSize, sample_metrics()).value();
}

Mpt width_of(std::string_view text) { return sample_metrics().width(text, kSize); }

TEST(DecimalMark, IsTheLastPointOrCommaBetweenDigits) {
  EXPECT_EQ(decimal_mark("12.5"), 2U);
  EXPECT_EQ(decimal_mark("1\u2009234,50"), 7U);
  EXPECT_EQ(decimal_mark("\u22120.062"), 4U);
  EXPECT_EQ(decimal_mark("1.5 bar."), 1U);
}

TEST(DecimalMark, IsTheEndOfTheDigitsWhereThereIsNone) {
  EXPECT_EQ(decimal_mark("120"), 3U);
  EXPECT_EQ(decimal_mark("12 L"), 2U);
  EXPECT_EQ(decimal_mark("\u2013"), std::nullopt);
  EXPECT_EQ(decimal_mark(""), std::nullopt);
}

TEST(TableColumns, FillTheWidthWithoutOverlap) {
  const auto places = places_of(table_of({Align::kText, Align::kNumber, Align::kDecimal},
                                         {{"Used oil", "41", "38.62"}, {"Rags", "8", "6"}}));
  ASSERT_EQ(places.size(), 3U);
  EXPECT_EQ(places[0].left, kCellPadding);
  for (std::size_t i = 1; i < places.size(); ++i) {
    EXPECT_EQ(places[i].left, places[i - 1].left + places[i - 1].width + 2 * kCellPadding);
  }
  EXPECT_EQ(places[2].left + places[2].width + kCellPadding, kWidth);
}

TEST(TableColumns, GiveNumbersTheirWidestCellAndTextTheRest) {
  const auto places = places_of(table_of({Align::kText, Align::kNumber},
                                         {{std::string(2000, 'x'), "123456789"}, {"a", "1"}}));
  EXPECT_EQ(places[1].width, width_of("123456789") + kSize / 20);
  EXPECT_EQ(places[0].width + places[1].width + 4 * kCellPadding, kWidth);
}

TEST(TableColumns, KeepRoomForTheLongestFraction) {
  const auto places =
      places_of(table_of({Align::kText, Align::kDecimal}, {{"a", "1234.5"}, {"b", "1.125"}}));
  EXPECT_EQ(places[1].fraction, width_of(".125"));
  EXPECT_GE(places[1].width, width_of("1234") + width_of(".125") + kSize / 20);
}

TEST(TableColumns, DoNotLetOneLongTextStarveAnother) {
  const auto places = places_of(
      table_of({Align::kText, Align::kText}, {{"2026-11-25 14:03", std::string(5000, 'x')}}));
  EXPECT_EQ(places[0].width, width_of("2026-11-25 14:03") + kSize / 20);
}

TEST(TableColumns, LetARareLongTextWrapBeforeManyShorterOnes) {
  const std::string usual = "w2, Bench oil drum of the second bench";
  const std::string rare =
      "Container placed, sealed, emptied or swapped, and whatever else there is";
  std::vector<std::vector<std::string>> rows(20, {"Oil drained", usual, "added by Bench A"});
  rows.push_back({rare, usual, "placed"});
  const auto places = places_of(table_of({Align::kText, Align::kText, Align::kText}, rows));
  EXPECT_LT(places[0].width, width_of(rare));
  EXPECT_GT(places[0].width, width_of(rare) / 3);  // what the others do not need is the long one's
  EXPECT_GE(places[1].width, width_of(usual));
  EXPECT_GE(places[2].width, width_of("added by Bench A"));
}

TEST(TableColumns, BreakAHeadingOnlyWhenRoomIsShort) {
  const std::string heading = "Unexplained difference";
  document::Table table = table_of({Align::kText, Align::kNumber}, {{"a", "1"}});
  table.columns[1].heading = heading;
  EXPECT_GE(places_of(table)[1].width, width_of(heading));
  table.rows[0].cells[0].text = std::string(2000, 'x');
  EXPECT_LT(places_of(table)[1].width, width_of(heading));
  EXPECT_GE(places_of(table)[1].width, width_of("Unexplained"));
}

TEST(TableColumns, RefuseNumbersWiderThanThePage) {
  const std::vector<Align> aligns(9, Align::kNumber);
  const std::vector<std::string> cells(9, "999999999999.999");
  EXPECT_FALSE(place_columns(table_of(aligns, {cells}), kWidth, kSize, sample_metrics()));
}

}  // namespace
}  // namespace benchwarden::print
