#include "print/word_wrap.h"

#include <gtest/gtest.h>

#include "base/text.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using Lines = std::vector<std::string>;
constexpr Mpt kWrapSize = points(10);

Mpt wrap_width(std::string_view text) { return sample_metrics().width(text, kWrapSize); }
Lines wrapped(std::string_view text, Mpt width) {
  return wrap(text, width, kWrapSize, sample_metrics());
}

TEST(WordWrap, BreaksAtTheLastSpaceThatFits) {
  EXPECT_EQ(wrapped("oil drained into drum", wrap_width("oil drained")),
            (Lines{"oil drained", "into drum"}));
  EXPECT_EQ(wrapped("oil drained", wrap_width("oil drained") - 1), (Lines{"oil", "drained"}));
}

TEST(WordWrap, BreaksAWordOnlyWhenItIsWiderThanALine) {
  const Lines lines =
      wrapped("a " + std::string(100, 'w') + " b", wrap_width(std::string(30, 'w')));
  EXPECT_EQ(lines, (Lines{"a", std::string(30, 'w'), std::string(30, 'w'), std::string(30, 'w'),
                          std::string(10, 'w') + " b"}));
}

TEST(WordWrap, NeverDrawsALineWiderThanAsked) {
  const Mpt width = wrap_width("0123456789");
  for (const std::string& line :
       wrapped("Żółć Ω≥€ " + std::string(500, 'M') + " 1\u20092", width)) {
    EXPECT_LE(wrap_width(line), width) << line;
  }
}

TEST(WordWrap, LosesNoLetter) {
  const std::string text = "Zażółć gęślą jaźń " + std::string(200, 'x') + " end";
  EXPECT_EQ(base::join(wrapped(text, wrap_width("gęślą")), ""),
            "Zażółćgęśląjaźń" + std::string(200, 'x') + "end");
}

TEST(WordWrap, DoesNotBreakAtThinOrNoBreakSpaces) {
  EXPECT_EQ(wrapped("x 1\u2009234\u00A0L", wrap_width("1\u2009234\u00A0L")),
            (Lines{"x", "1\u2009234\u00A0L"}));
}

TEST(WordWrap, StartsALineAtEachLineEnd) {
  EXPECT_EQ(wrapped("a\n\nb", points(100)), (Lines{"a", "", "b"}));
}

TEST(WordWrap, GivesOneLineForNoText) {
  EXPECT_EQ(wrapped("", points(10)), Lines{""});
  EXPECT_EQ(wrapped("   ", points(10)), Lines{""});
}

TEST(WordWrap, KeepsAnAccentWithItsLetter) {
  EXPECT_EQ(wrapped("ee\u0301", wrap_width("e")), (Lines{"e", "e\u0301"}));
}

TEST(WordWrap, LetsACharacterWiderThanTheLineStandAlone) {
  EXPECT_EQ(wrapped("MM", 1), (Lines{"M", "M"}));
}

TEST(WordWrap, MeasuresTheWidestWord) {
  EXPECT_EQ(widest_word("a bbb\ncc", kWrapSize, sample_metrics()), wrap_width("bbb"));
  EXPECT_EQ(width_in_two_lines("Unexplained difference", kWrapSize, sample_metrics()),
            wrap_width("Unexplained"));
  EXPECT_EQ(width_in_two_lines("Mass", kWrapSize, sample_metrics()), wrap_width("Mass"));
}

}  // namespace
}  // namespace benchwarden::print
