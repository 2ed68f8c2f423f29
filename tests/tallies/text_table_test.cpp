#include "tallies/text_table.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

std::string table_of(const std::vector<std::string>& texts) {
  ByteWriter writer;
  writer.number(texts.size());
  for (const std::string& text : texts) writer.text(text);
  return writer.take();
}

/// Whether a table of "a" and "b" may be followed by these places.
bool are_taken(const std::vector<std::uint64_t>& places) {
  ByteWriter writer;
  for (const std::uint64_t place : places) writer.number(place);
  const std::string bytes = table_of({"a", "b"}) + writer.take();
  ByteReader reader(bytes);
  ReadTexts texts(reader);
  for (std::size_t i = 0; i < places.size(); ++i) texts.next(reader);
  return !reader.failed() && reader.at_end() && texts.all_used();
}

TEST(SharedTexts, AreEqualWhereTheirTextsAre) {
  const SharedText one("drained");
  EXPECT_EQ(one, SharedText(std::string("drained")));
  EXPECT_FALSE(one == SharedText("drained "));
  EXPECT_EQ(std::string_view(one), "drained");
  EXPECT_EQ(SharedText(), SharedText(""));
  EXPECT_EQ(std::string_view(SharedText()), "");
}

TEST(SharedTexts, StayWhatTheyAreHoweverManyCome) {
  std::vector<SharedText> texts;
  constexpr int kMany = 20'000;
  for (int i = 0; i < kMany; ++i) texts.emplace_back("text " + std::to_string(i));
  for (int i = 0; i < kMany; ++i) {
    ASSERT_EQ(std::string_view(texts[static_cast<std::size_t>(i)]), "text " + std::to_string(i));
  }
}

TEST(TextTable, HoldsEachTextOnceInOrderOfItsFirstUse) {
  WrittenTexts texts;
  for (const char* text : {"b", "a", "b", "", "a"}) texts.add(SharedText(text));
  ByteWriter writer;
  texts.write(writer);
  EXPECT_EQ(writer.bytes(), table_of({"b", "a", ""}));
  EXPECT_EQ(texts.place(SharedText("")), 2U);
  EXPECT_EQ(texts.place(SharedText("b")), 0U);
}

TEST(TextTable, IsReadOnlyAsItWouldBeWritten) {
  EXPECT_TRUE(are_taken({0, 1}));
  EXPECT_TRUE(are_taken({0, 0, 1, 0}));
  EXPECT_FALSE(are_taken({0, 0})) << "one is never used";
  EXPECT_FALSE(are_taken({1, 0})) << "the second before the first";
  EXPECT_FALSE(are_taken({0, 1, 2})) << "there is no third";
}

TEST(TextTable, WithATextTwiceIsRefused) {
  const std::string bytes = table_of({"a", "b", "a"});
  ByteReader reader(bytes);
  const ReadTexts texts(reader);
  EXPECT_TRUE(reader.failed());
}

TEST(TextTable, MakesOneMoreLikeRecordAFewBytes) {
  BookUnderTest book({enters("tool", "r1", {})});
  book.enter(day(1), {checks("r1", entries::Outcome::kPassed)});
  const std::size_t before = book.state().snapshot().size();
  constexpr std::size_t kMore = 100;
  for (std::size_t i = 0; i < kMore; ++i) {
    book.enter(day(2), {checks("r1", entries::Outcome::kPassed)});
  }
  EXPECT_LE(book.state().snapshot().size() - before, kMore * 10);
}

TEST(RecordList, WhenCopiedStaysAsItWas) {
  RecordList records;
  const entries::Told told{"look", {}};
  constexpr std::uint64_t kMany = 600;
  for (std::uint64_t seq = 1; seq <= kMany; ++seq) {
    records.add(Record(day(3), seq, entries::Outcome::kPassed, told));
  }
  const RecordList copy = records;
  records.add(Record(day(1), kMany + 1, entries::Outcome::kFailed, {"late", {}}));
  records.amend(day(3), kMany, {});
  EXPECT_EQ(copy.size(), kMany);
  EXPECT_FALSE(copy.back().struck);
  EXPECT_TRUE(records.back().struck);
  EXPECT_EQ(copy.of_kind("look")[0], 0U);
  EXPECT_EQ(records.of_kind("look")[0], 1U);
  EXPECT_EQ(copy.deciding().size(), kMany);
  EXPECT_TRUE(copy.of_kind("late").empty());
}

}  // namespace
}  // namespace benchwarden::tallies
