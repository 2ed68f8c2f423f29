#include "print/html.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/base64.h"
#include "base/sha256.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

document::Document with_block(document::Block block) {
  document::Document document = sample_document();
  document.sections = {{{std::move(block)}}};
  return document;
}

TEST(Html, HasOneMainLandmarkOneTitleAndALanguage) {
  const std::string html = to_html(sample_document());
  EXPECT_THAT(html, HasSubstr("<html lang=\"en\">"));
  EXPECT_THAT(html, HasSubstr("<title>Waste in October 2026</title>"));
  EXPECT_EQ(count(html, "<main>"), 1U);
  EXPECT_EQ(count(html, "<h1>"), 1U);
  EXPECT_EQ(count(html, "<h2>"), 3U);
}

TEST(Html, NamesItsTablesAndTheirHeaders) {
  const std::string html = to_html(sample_document());
  EXPECT_THAT(html, HasSubstr("<caption>Waste added, by stream</caption>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"col\">Waste stream</th>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\">Spent solvent</th>"));
  EXPECT_THAT(html, HasSubstr("<tfoot>\n<tr class=\"total\"><th scope=\"row\">All streams</th>"));
}

TEST(Html, WrapsNoColumnOfShortTexts) {
  document::Table table;
  table.columns = {{"Kind", "", document::Align::kText}, {"Person", "", document::Align::kText}};
  table.rows = {{{{"Oil drained"}, {"Bench A"}}},
                {{{"Container placed, sealed, emptied or swapped"}, {"Bänke ÄÖÜ äöü ß!"}}}};
  const std::string html = to_html(with_block(table));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\">Oil drained</th>"));
  EXPECT_THAT(html, HasSubstr("<td class=\"short\">Bench A</td>"));
  EXPECT_THAT(html, HasSubstr("<td class=\"short\">Bänke ÄÖÜ äöü ß!</td>"));
}

TEST(Html, ShowsDetailsUnderTheirRowAcrossTheTable) {
  EXPECT_THAT(to_html(sample_document()),
              HasSubstr("<tr class=\"detail\"><td colspan=\"7\">corrected 2026-10-14"));
}

TEST(Html, SaysWhenATableOrABoxIsEmpty) {
  const std::string html = to_html(sample_document());
  EXPECT_THAT(html, HasSubstr("<td colspan=\"4\">No collection in this month.</td>"));
  EXPECT_THAT(html, HasSubstr("<p>none</p>"));
}

TEST(Html, MakesRoomForMissingDecimals) {
  const std::string html = to_html(sample_document());
  EXPECT_THAT(html, HasSubstr("<td class=\"n lack-1\">33.6</td>"));
  EXPECT_THAT(html, HasSubstr("<td class=\"n whole lack-2\">6</td>"));
  EXPECT_THAT(html, HasSubstr("<td class=\"n\">1.18</td>"));
}

TEST(Html, EscapesEveryPlaceTextCanStandIn) {
  const std::string bad = "</style></script><b>&\"'";
  document::Document document = sample_document();
  document.title = document.language = document.furniture.site = bad;
  document.subject_lines = {bad};
  document.standing = document::Standing::kNotForIssue;
  document.furniture.not_for_issue = bad;
  document::Table table;
  table.caption = bad;
  table.columns = {{bad, bad, document::Align::kText}};
  table.rows = {{{{bad}}, document::RowKind::kNormal, {bad}}};
  document.sections = {
      {{document::Heading{1, bad}, document::Paragraph{bad}, table,
        document::KeyFigures{{{bad, bad, bad}}, bad}, document::NoteBox{bad, {bad}, bad},
        document::CautionBox{bad, {bad}, {bad}}, document::SignatureLine{{bad}}}}};
  const std::string html = to_html(document);
  EXPECT_EQ(count(html, "</script>"), 0U);
  EXPECT_EQ(count(html, "</style>"), 1U);
  EXPECT_EQ(count(html, "<b>"), 0U);
  EXPECT_EQ(count(html, "&lt;/style&gt;&lt;/script&gt;&lt;b&gt;&amp;&quot;&#39;"), 22U);
}

TEST(Html, HoldsNoControlsAndNoInvalidBytes) {
  const std::string html = to_html(with_block(document::Paragraph{"a\x01\xFF\nb"}));
  EXPECT_THAT(html, HasSubstr("<p>a\uFFFD\uFFFD<br>b</p>"));
}

TEST(Html, CarriesTheMarkOnlyWhenNotForIssue) {
  document::Document document = sample_document();
  EXPECT_THAT(to_html(document), Not(HasSubstr("NOT FOR ISSUE")));
  document.standing = document::Standing::kNotForIssue;
  EXPECT_THAT(to_html(document), HasSubstr("<p class=\"mark\">NOT FOR ISSUE</p>"));
}

TEST(Html, NamesTheHashOfExactlyItsStyle) {
  const std::string html = to_html(sample_document());
  const std::size_t first = html.find("<style>") + 7;
  const std::string style = html.substr(first, html.find("</style>") - first);
  const base::Sha256Digest digest = base::sha256(style);
  EXPECT_EQ(html_style_source(), "'sha256-" + base::to_base64(base::as_bytes(digest)) + "'");
}

TEST(Html, IsTheSameTwice) { EXPECT_EQ(to_html(sample_document()), to_html(sample_document())); }

}  // namespace
}  // namespace benchwarden::print
