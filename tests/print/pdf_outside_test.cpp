// Asks programs that are not ours what they see in the files: qpdf and the poppler tools.

#include "print/pdf_outside.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <set>
#include <vector>

#include "print/pdf.h"
#include "print/sample.h"
#include "print/utf8.h"

namespace benchwarden::print {
namespace {

using testing::ContainsRegex;
using testing::HasSubstr;
using testing::Not;

/// Points from the top left of the paper.
struct Box {
  double x_min = 0;
  double y_min = 0;
  double x_max = 0;
  double y_max = 0;
};

/// The next number in quotes; `at` moves behind it.
double next_number(const std::string& text, std::size_t& at) {
  at = text.find('"', at) + 1;
  const double number = std::strtod(text.c_str() + at, nullptr);
  at = text.find('"', at) + 1;
  return number;
}

std::vector<Box> word_boxes(const std::string& boxes) {
  std::vector<Box> words;
  for (std::size_t at = boxes.find("<word"); at != std::string::npos;
       at = boxes.find("<word", at)) {
    Box word;
    for (double* side : {&word.x_min, &word.y_min, &word.x_max, &word.y_max}) {
      *side = next_number(boxes, at);
    }
    words.push_back(word);
  }
  return words;
}

/// 20 mm from the left edge, 15 mm from the right edge of A4 and the lower edge of Letter. The
/// box of a letter is a little taller than its ink, hence the 3 pt at the top.
bool is_inside_margins(const Box& word) {
  return word.x_min >= 56.6 && word.x_max <= 595.3 - 42.5 && word.y_min >= 42.5 - 3 &&
         word.y_max <= 792.0 - 42.5;
}

TEST_F(PdfOutside, EmbedsItsOneFontWithUnicode) {
  write(sample_document());
  const Answer fonts = tool("pdffonts");
  EXPECT_EQ(count(fonts.text, "\n"), 3U) << fonts.text;  // two heading lines, one font
  EXPECT_THAT(fonts.text,
              ContainsRegex("BWAAAA.DejaVuSans[^ ]* +CID TrueType +Identity-H +yes yes yes"));
}

TEST_F(PdfOutside, GivesItsTextBackInEveryScript) {
  write(sample_document());
  const std::string found = text();
  for (const char* wanted :
       {"Łódź żółć", "Ελληνικά", "Кириллица", "≥ ≤ ± Ω € ½ №", "Streams", "13 02 05*", "1 204.5",
        "\u22120.062", "page 1 of ", "tree head 3f9a c017 b2e4", "No collection in this month.",
        "corrected 2026-10-14 by Bench A", "Signature", "none"}) {
    EXPECT_THAT(found, HasSubstr(wanted));
  }
  EXPECT_THAT(found, Not(HasSubstr("NOT FOR ISSUE")));
}

TEST_F(PdfOutside, GivesBackSignsAndThinSpacesAndNoReaderWarns) {
  const std::string signs =
      "20\u2009\u00B0C, 870\u00A0kg/m\u00B3, \u2264 2\u2009289, w\u202F1, "
      "\u00E4\u00F6\u00FC\u00DF, \u22120.5 "
      "\u2192 \u00BD";
  // poppler gives every kind of space as the plain one
  const std::string wanted = "20 °C, 870 kg/m³, ≤ 2 289, w 1, äöüß, −0.5 → ½";
  document::Document document = long_table(1);
  document.sections = {{{document::Paragraph{signs}}}};
  write(document);
  const Answer raw = ask("pdftotext -raw " + path_ + " - 2>&1");
  EXPECT_THAT(raw.text, HasSubstr(wanted));
  EXPECT_THAT(raw.text, Not(HasSubstr("Warning")));
}

TEST_F(PdfOutside, SaysHowManySignsTheFontLacks) {
  document::Document document = sample_document();
  write(document);
  EXPECT_THAT(text(), Not(HasSubstr("signs missing")));
  document.sections.push_back({{document::Paragraph{"漢字 and 😀"}}});
  write(document);
  EXPECT_THAT(text(), HasSubstr("signs missing: 3"));
}

TEST_F(PdfOutside, CarriesTitleAuthorSubjectAndPinnedDate) {
  write(sample_document());
  const std::string info = tool("pdfinfo -isodates").text;
  EXPECT_THAT(info, ContainsRegex("Title: +Waste in October 2026\n"));
  EXPECT_THAT(info, ContainsRegex("Author: +Saltmarsh Damper Works\n"));
  EXPECT_THAT(info, ContainsRegex("Subject: +Saltmarsh Damper Works, Quay Lane 4, Saltmarsh; 1 "));
  EXPECT_THAT(info, ContainsRegex("CreationDate: +2026-11-03T07:15:03Z\n"));
}

TEST_F(PdfOutside, HasTheSizeOfThePaperAskedFor) {
  write(sample_document(), Paper::kA4);
  const std::string a4 = tool("pdfinfo -box").text;
  EXPECT_THAT(a4, ContainsRegex("MediaBox: +0.00 +0.00 +595.28 +841.89"));
  write(sample_document(), Paper::kLetter);
  const std::string letter = tool("pdfinfo -box").text;
  EXPECT_THAT(letter, ContainsRegex("MediaBox: +0.00 +0.00 +612.00 +792.00"));
}

TEST_F(PdfOutside, BreaksPagesAlikeOnBothPapers) {
  write(long_table(120), Paper::kA4);
  const std::string a4 = text();
  write(long_table(120), Paper::kLetter);
  EXPECT_EQ(text(), a4);
}

TEST_F(PdfOutside, RepeatsTheTableHeadOnEveryPageAndLosesNoRow) {
  write(long_table(300));
  const std::string found = text();
  const std::size_t pages = count(found, "\f");
  EXPECT_TRUE(pages >= 6 && pages <= 9) << pages;
  EXPECT_EQ(count(found, "Pressure"), pages);
  EXPECT_EQ(count(found, "page "), pages);
  EXPECT_THAT(found, HasSubstr("page " + std::to_string(pages) + " of " + std::to_string(pages)));
  std::size_t rows = 0;
  for (int i = 1; i <= 300; ++i) {
    rows += count(found, " " + std::to_string(i) + ".5\n");
  }
  EXPECT_EQ(rows, 300U);
  EXPECT_EQ(count(found, "row "), 300U);
}

TEST_F(PdfOutside, KeepsTwoRowsWithATotalWhereverThePageEnds) {
  std::set<std::size_t> page_counts;
  for (int rows = 28; rows <= 44; ++rows) {
    write(long_table(rows));
    const std::string found = text();
    page_counts.insert(count(found, "\f"));
    const std::size_t total = found.find("Sum of all");
    const std::size_t page = found.rfind('\f', total);
    const std::size_t start = page == std::string::npos ? 0 : page;
    EXPECT_GE(count(found.substr(start, total - start), "row "), 2U) << rows;
  }
  EXPECT_EQ(page_counts, (std::set<std::size_t>{1, 2}));  // the end of a page was crossed
}

/// `lines` lines of text push the section that ends the document over the end of the first page.
document::Document pushed_down(int lines, document::Section section) {
  document::Document document = long_table(1);
  document::Section filling;
  for (int i = 0; i < lines; ++i) {
    filling.blocks.emplace_back(document::Paragraph{"filling"});
  }
  document.sections = {filling, std::move(section)};
  return document;
}

/// How many pages hold one of the words but not all of them.
std::size_t pages_that_part(const std::string& text, const std::vector<std::string>& words) {
  std::size_t parting = 0;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = text.find('\f', start);
    const std::string page = text.substr(start, end - start);
    const auto found = std::count_if(words.begin(), words.end(), [&](const std::string& word) {
      return page.find(word) != std::string::npos;
    });
    if (found != 0 && found != std::ssize(words)) {
      ++parting;
    }
    start = end == std::string::npos ? text.size() : end + 1;
  }
  return parting;
}

TEST_F(PdfOutside, KeepsAHeadingWithTheTableHeadAndTwoRowsWhereverThePageEnds) {
  document::Section section = long_table(6).sections.front();
  section.blocks.insert(section.blocks.begin() + 1, document::Paragraph{"What the table tells."});
  std::set<std::size_t> page_counts;
  for (int lines = 12; lines <= 34; ++lines) {
    write(pushed_down(lines, section));
    const std::string found = text();
    page_counts.insert(count(found, "\f"));
    EXPECT_EQ(pages_that_part(found,
                              {"Checks", "What the table tells.", "Every check", "row 1", "row 2"}),
              0U)
        << lines;
  }
  EXPECT_EQ(page_counts, (std::set<std::size_t>{1, 2}));
}

TEST_F(PdfOutside, KeepsASignatureWholeWithItsHeadingWhereverThePageEnds) {
  const document::Section section{
      {document::Heading{1, "To sign"}, document::Paragraph{"Where it is asked for."},
       document::SignatureLine{{"Name", "Function", "Date", "Signature"}}}};
  std::set<std::size_t> page_counts;
  for (int lines = 24; lines <= 42; ++lines) {
    write(pushed_down(lines, section));
    const std::string found = text();
    page_counts.insert(count(found, "\f"));
    EXPECT_EQ(pages_that_part(found, {"To sign", "Where it is asked", "Name", "Signature"}), 0U)
        << lines;
  }
  EXPECT_EQ(page_counts, (std::set<std::size_t>{1, 2}));
}

TEST_F(PdfOutside, StaysInsideTheMarginsOfBothPapers) {
  write(sample_document());
  const std::string boxes = ask("pdftotext -bbox " + path_ + " - 2>/dev/null").text;
  const std::vector<Box> words = word_boxes(boxes);
  EXPECT_GT(words.size(), 200U);
  for (const Box& word : words) {
    EXPECT_TRUE(is_inside_margins(word))
        << word.x_min << " " << word.y_min << " " << word.x_max << " " << word.y_max;
  }
}

TEST_F(PdfOutside, HasTheWordsOfAChartAndDrawsIt) {
  constexpr std::int64_t kDayMs = 86'400'000;
  document::Chart chart;
  chart.caption = "Content over time";
  chart.value_label = "Content, kg";
  chart.series = {{"by each check",
                   document::Mark::kDot,
                   document::Joined::kSolid,
                   {{{20'513 * kDayMs, 8'000}, {20'600 * kDayMs, 4'000}}}}};
  document::Document document = long_table(1);
  document.sections = {{{chart}}};
  write(document);
  for (const char* wanted : {"Content over time", "Content, kg", "by each check", "2026-04"}) {
    EXPECT_THAT(text(), HasSubstr(wanted));
  }
  const auto lines = [&] {
    return count(ask("qpdf --qdf --object-streams=disable " + path_ + " -").text, " l\n");
  };
  const std::size_t drawn = lines();
  document.sections.clear();
  write(document);
  EXPECT_GT(drawn, lines() + 10);
}

TEST_F(PdfOutside, ListsItsHeadingsAsBookmarks) {
  document::Document document = sample_document();
  document.sections.push_back({{document::Heading{1, "Żółć \u2013 Ω"},
                                document::Heading{3, "below"}, document::Paragraph{"text"}},
                               document::PageBreak::kBefore});
  write(document);
  const std::string json = ask("qpdf --json --json-key=outlines " + path_).text;
  EXPECT_THAT(json, HasSubstr("\"title\": \"Streams\""));
  EXPECT_THAT(json, HasSubstr("\"title\": \"Żółć \u2013 Ω\""));
  EXPECT_THAT(json, HasSubstr("\"title\": \"below\""));
}

TEST_F(PdfOutside, MarksEveryPageThatIsNotForIssue) {
  document::Document document = long_table(120);
  document.standing = document::Standing::kNotForIssue;
  write(document);
  const std::string found = text();
  EXPECT_EQ(count(found, "NOT FOR ISSUE"), 2 * count(found, "\f"));  // above and below
}

TEST_F(PdfOutside, NamesItsLanguage) {
  write(sample_document());
  EXPECT_THAT(ask("qpdf --qdf --object-streams=disable " + path_ + " -").text,
              HasSubstr("/Lang (en)"));
}

TEST_F(PdfOutside, SurvivesHostileText) {
  const std::string bad = std::string("x\0\x01\x1B[2J", 7) + "\xFF\xC0\xAF </script>=cmd() 😀漢" +
                          encode_utf8(std::u32string(1, 0x202E)) + std::string(3000, 'W') +
                          "\t(\\)%%EOF\nendstream endobj";
  document::Document document = sample_document();
  document.title = document.author = document.language = bad;
  document.subject_lines = {bad};
  document::Table table;
  table.caption = bad;
  table.columns = {{bad.substr(0, 40), "", document::Align::kText},
                   {"n", "", document::Align::kText}};
  table.rows = {{{{bad}, {bad}}, document::RowKind::kNormal, {bad}},
                {{{bad}}, document::RowKind::kNote},
                {{{std::string(20'000, '#')}, {"y"}}}};
  document.sections = {
      {{document::Heading{1, bad}, document::Paragraph{bad}, table,
        document::KeyFigures{{{bad, bad, bad}}, bad}, document::NoteBox{bad, {bad}, bad},
        document::CautionBox{bad, {bad}, {bad}}, document::SignatureLine{{bad}}}}};
  write(document);
  const std::string found = ask("pdftotext -raw " + path_ + " - 2>/dev/null").text;
  EXPECT_THAT(found, HasSubstr("</script>=cmd()"));
  EXPECT_EQ(count(found, "#"), 20'000U);
}

}  // namespace
}  // namespace benchwarden::print
