#include "print/clean_text.h"

#include <gtest/gtest.h>

#include "print/sample.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

constexpr const char* kMark = "\uFFFD";

TEST(Utf8, SurvivesARoundTripAtEveryLength) {
  const std::u32string codes = {U'a', 0x7F, 0x80, 0x7FF, 0x800, 0xFFFF, 0x10000, 0x10FFFF};
  EXPECT_EQ(decode_utf8(encode_utf8(codes)), codes);
  EXPECT_EQ(encode_utf8(U"\u0141\u20AC"), "\xC5\x81\xE2\x82\xAC");
}

TEST(Utf8, MarksEachByteThatIsNotUtf8) {
  const std::u32string one_mark = {kReplacement};
  EXPECT_EQ(decode_utf8("\xFF"), one_mark);
  EXPECT_EQ(decode_utf8("\xC0\xAF").size(), 2U);          // overlong "/"
  EXPECT_EQ(decode_utf8("\xED\xA0\x80").size(), 3U);      // a surrogate
  EXPECT_EQ(decode_utf8("\xF4\x90\x80\x80").size(), 4U);  // above U+10FFFF
  EXPECT_EQ(decode_utf8("\xE2\x82").size(), 2U);          // cut short
  EXPECT_EQ(decode_utf8("\xE2\x82x"), (std::u32string{kReplacement, kReplacement, U'x'}));
}

TEST(CleanText, ShowsThatAControlStoodThere) {
  EXPECT_EQ(clean_text(std::string_view("a\0b", 3)), std::string("a") + kMark + "b");
  EXPECT_EQ(clean_text("\x1B[0m\x7F"), std::string(kMark) + "[0m" + kMark);
  EXPECT_EQ(clean_text("\u0085"), kMark);
}

TEST(CleanText, KeepsLineEndsAndMakesTabsSpaces) { EXPECT_EQ(clean_text("a\tb\nc"), "a b\nc"); }

TEST(CleanText, RefusesMarksThatTurnTheDirectionOfText) {
  for (const unsigned code :
       {0x202AU, 0x202BU, 0x202DU, 0x202EU, 0x2066U, 0x2067U, 0x2068U, 0x2069U}) {
    const std::string turning = encode_utf8(std::u32string(1, code));
    EXPECT_EQ(clean_text(turning + "abc"), std::string(kMark) + "abc");
  }
}

TEST(CleanText, LeavesOrdinaryTextOfAnyScriptAlone) {
  const std::string text = "Łódź żółć Ω € ≥ Ελληνικά Кириллица 😀";
  EXPECT_EQ(clean_text(text), text);
}

TEST(PrintableText, MarksWhatTheFontCannotDraw) {
  EXPECT_EQ(printable_text("a😀b", sample_metrics()), std::string("a") + kMark + "b");
  EXPECT_EQ(printable_text("漢", sample_metrics()), kMark);
  EXPECT_EQ(printable_text("Łż≥Ω€ЖΣ\u2009\u2212", sample_metrics()), "Łż≥Ω€ЖΣ\u2009\u2212");
}

TEST(PrintableText, DropsMarksWithoutWidth) {
  EXPECT_EQ(printable_text("a\u200B\u00AD\uFEFFb", sample_metrics()), "ab");
}

}  // namespace
}  // namespace benchwarden::print
