// Text that was meant to do harm, in every kind of block and every kind of file.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "print/block_samples.h"
#include "print/csv.h"
#include "print/html.h"
#include "print/pdf_outside.h"
#include "print/sample.h"
#include "print/svg.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

std::string sign(char32_t code) { return encode_utf8(std::u32string(1, code)); }

/// Marks that turn the direction of what follows (UAX #9), controls, bytes that are no UTF-8.
std::string hidden_signs() {
  return std::string("a\0\x01\x1B[2J\x7F", 8) + "\xC2\x9B" + "\xFF\xC0\xAF" + sign(0x202E) +
         sign(0x2066) + sign(0x200F) + sign(0xFEFF) + "\r\n\tz";
}
const char* const kMarkup = "]]></style></script></svg><b onload=x>&amp;'\" -->";
const char* const kPdfSyntax = ") Tj ET endstream endobj (\\)) %%EOF <</JS(x)>>";

std::vector<std::string> hostile_texts() {
  return {hidden_signs(),
          kMarkup,
          kPdfSyntax,
          std::string(10'000, 'W'),
          std::string(10'000, ' '),
          std::string(200, '\n'),
          "=cmd|'/C x'!A1",
          "@SUM(A1)",
          "+1",
          "-2+3",
          "{page} {pages} {count} %s %n",
          "漢字 😀 " + sign(0x10FFFF),
          ""};
}

/// As few files as hold all of them: each is looked at by three programs.
std::vector<std::string> hostile_texts_on_paper() {
  return {hidden_signs(),
          std::string(kMarkup) + " {page} {pages} {count} %s %n 漢字 😀 =cmd()\n" + kPdfSyntax,
          std::string(10'000, ' '), std::string(200, '\n'), ""};
}

/// That no file of text may hold: controls but tabs and line ends, marks of direction, invalid
/// bytes.
void expect_harmless(const std::string& text) {
  for (const char32_t code : decode_utf8(text)) {
    const bool kept = code == U'\t' || code == U'\n' || code == U'\r';
    const bool control = (code < 0x20 && !kept) || (code >= 0x7F && code < 0xA0);
    const bool turns = (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
    EXPECT_FALSE(control || turns) << static_cast<unsigned>(code);
  }
  EXPECT_EQ(encode_utf8(decode_utf8(text)), text);
}

TEST(HostileText, StaysTextInHtml) {
  for (const std::string& text : hostile_texts()) {
    const std::string html = to_html(every_block_saying(text));
    expect_harmless(html);
    EXPECT_EQ(count(html, "<b "), 0U);
    EXPECT_EQ(count(html, "<script"), 0U);
    EXPECT_EQ(count(html, "</style>"), 1U);
    EXPECT_EQ(count(html, "</main>"), 1U);
    EXPECT_EQ(count(html, "<svg"), count(html, "</svg>"));
  }
  EXPECT_THAT(to_html(every_block_saying(kMarkup)),
              HasSubstr("<p>]]&gt;&lt;/style&gt;&lt;/script&gt;&lt;/svg&gt;&lt;b onload=x&gt;"
                        "&amp;amp;&#39;&quot; --&gt;</p>"));
}

TEST(HostileText, StaysTextInSvg) {
  for (const std::string& text : hostile_texts()) {
    const std::string svg = to_svg(every_block_saying(text));
    expect_harmless(svg);
    EXPECT_EQ(count(svg, "<svg"), 1U);
    EXPECT_EQ(count(svg, "</svg>"), 1U);
    EXPECT_EQ(count(svg, "<b "), 0U);
  }
}

TEST(HostileText, StartsNoFormulaInCsv) {
  for (const std::string& text : hostile_texts()) {
    const std::string csv = to_csv(every_block_saying(text));
    expect_harmless(csv);
    for (const char* formula : {"\r\n=", ",=", ",\"=", "\r\n@", ",@", ",\"@"}) {
      EXPECT_THAT(csv, Not(HasSubstr(formula)));
    }
  }
  EXPECT_THAT(to_csv(every_block_saying("=cmd()")), HasSubstr("'=cmd()"));
}

using HostilePdf = PdfOutside;

TEST_F(HostilePdf, StaysTextInEveryKindOfBlock) {
  for (const std::string& text : hostile_texts_on_paper()) {
    write(every_block_saying(text));
    const Answer shown = ask("pdftotext -raw " + path_ + " - 2>&1");
    EXPECT_EQ(shown.exit_code, 0);
    EXPECT_THAT(shown.text, Not(AnyOf(HasSubstr("Error"), HasSubstr("Warning"))));
    std::string words = shown.text;
    std::erase(words, '\f');  // the end of a page
    expect_harmless(words);
    EXPECT_THAT(ask("pdffonts " + path_ + " 2>/dev/null").text, HasSubstr("yes yes yes"));
  }
  write(every_block_saying(kPdfSyntax));
  EXPECT_GE(count(text(), ") Tj ET endstream endobj"), 20U);
}

TEST_F(HostilePdf, LosesNoSignOfALongWordAndKeepsItOnThePaper) {
  write(every_block_saying(std::string(10'000, 'W')));
  const std::string found = ask("pdftotext -raw " + path_ + " - 2>/dev/null").text;
  // title, subject, a word of each block, of which some are cut on purpose
  EXPECT_GE(count(found, "W"), 20U * 10'000U);
  const std::string boxes = ask("pdftotext -bbox " + path_ + " - 2>/dev/null").text;
  std::size_t words = 0;
  for (std::size_t at = boxes.find("xMin=\""); at != std::string::npos;
       at = boxes.find("xMin=\"", at + 1)) {
    const std::size_t right = boxes.find("xMax=\"", at) + 6;
    EXPECT_GE(std::strtod(boxes.c_str() + at + 6, nullptr), 56.6);
    EXPECT_LE(std::strtod(boxes.c_str() + right, nullptr), 595.3 - 42.5);
    ++words;
  }
  EXPECT_GT(words, 1'000U);
}

}  // namespace
}  // namespace benchwarden::print
