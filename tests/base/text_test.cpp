#include "base/text.h"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

namespace benchwarden::base {
namespace {

TEST(Text, GroupsDigitsInThreesFromTheRight) {
  EXPECT_EQ(grouped_digits(""), "");
  EXPECT_EQ(grouped_digits("205"), "205");
  EXPECT_EQ(grouped_digits("1205"), "1\u202F205");
  EXPECT_EQ(grouped_digits("999999999999"), "999\u202F999\u202F999\u202F999");
}

TEST(Text, NamesTheFirstSignThatNobodySees) {
  const std::vector<std::pair<std::string, std::string>> all{
      {"a\tb", "U+0009"},         {"a\x7F", "U+007F"},    {"a\u0085b", "U+0085"},
      {"a\u061Cb", "U+061C"},     {"a\u200Bb", "U+200B"}, {"a\u200Eb", "U+200E"},
      {"a\u2028b", "U+2028"},     {"a\u202Ab", "U+202A"}, {"gpj\u202E\u2066", "U+202E"},
      {"a\u2066b", "U+2066"},     {"a\u2069b", "U+2069"}, {"\uFEFFa", "U+FEFF"},
      {"a\U000E0041", "U+E0041"}, {"a\xC0", "U+FFFD"},    {"a\u00ADb", "U+00AD"},
      {"a\u180Eb", "U+180E"},     {"a\uFFFF", "U+FFFF"},  {"a\U0001FFFE", "U+1FFFE"}};
  for (const auto& [text, name] : all) {
    const auto hidden = hidden_sign(text);
    ASSERT_TRUE(hidden.has_value()) << name;
    EXPECT_EQ(sign_name(*hidden), name);
  }
}

TEST(Text, SeesTheSignsOfEveryScript) {
  for (const char* text : {"", "naïve", "Łódź", "漢字", "می\u200Cخواهم", "👩\u200D🔧", "a\u00A0b"}) {
    EXPECT_FALSE(hidden_sign(text).has_value()) << text;
  }
}

TEST(Text, StandsWithinOneLineWithItsHiddenSignsNamed) {
  EXPECT_EQ(one_line("naïve 漢字"), "naïve 漢字");
  EXPECT_EQ(one_line("a\nb\x1B[2J"), "a<U+000A>b<U+001B>[2J");
  EXPECT_EQ(one_line("\u0085x\u202Ey\u2028"), "<U+0085>x<U+202E>y<U+2028>");
  EXPECT_EQ(one_line("\xC0z\xE2\x80"), "<U+FFFD>z<U+FFFD><U+FFFD>");
}

TEST(Text, ReadsAWholeNumberInItsOneWayToWriteIt) {
  EXPECT_EQ(whole_number("0"), 0U);
  EXPECT_EQ(whole_number("18446744073709551615"), UINT64_MAX);
  for (const char* text :
       {"", "00", "08", "-1", "+1", " 1", "1 ", "1.0", "0x1", "x", "18446744073709551616"}) {
    EXPECT_EQ(whole_number(text), std::nullopt) << text;
  }
}

TEST(Text, KnowsWhatShowsNothing) {
  for (const char* text : {"", " ", "\u00A0", "\u3000 \u2003", "\u2800", "\u3164", "\u200D"}) {
    EXPECT_TRUE(is_blank(text)) << text;
  }
  for (const char* text : {" a", "\u00A0.", "漢", "\xC0"}) EXPECT_FALSE(is_blank(text)) << text;
}

}  // namespace
}  // namespace benchwarden::base
