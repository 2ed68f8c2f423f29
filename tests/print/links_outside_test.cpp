// Contents, links and the index of entries as programs that are not ours see them.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "print/block_samples.h"
#include "print/html.h"
#include "print/pdf_outside.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::Not;

/// The text of each page.
std::vector<std::string> split_pages(const std::string& text) {
  std::vector<std::string> pages;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\f', start), text.size());
    pages.push_back(text.substr(start, end - start));
    start = end + 1;
  }
  return pages;
}

class LinksOutside : public PdfOutside {
 protected:
  /// The pages, their texts in the order they were drawn in.
  [[nodiscard]] std::vector<std::string> pages() const {
    return split_pages(ask("pdftotext -raw " + path_ + " - 2>/dev/null").text);
  }
  [[nodiscard]] std::string uncompressed() const {
    return ask("qpdf --qdf --object-streams=disable " + path_ + " - 2>/dev/null").text;
  }
};

TEST_F(LinksOutside, ListsInTheContentsThePageEachHeadingStandsOn) {
  write(linked_document(200));
  const auto found = pages();
  ASSERT_GT(found.size(), 6U);
  for (const char* title : {"Streams", "To be filled in", "In the store", "Months",
                            "Entries of Month 3", "Index of entries"}) {
    const std::string& contents = found[0];
    const std::size_t at = contents.find("\n" + std::string(title) + " ");
    ASSERT_NE(at, std::string::npos) << title;
    const std::string line = contents.substr(at + 1, contents.find('\n', at + 1) - at - 1);
    EXPECT_THAT(line, HasSubstr(" . . . "));
    const std::size_t page = std::stoul(line.substr(line.rfind(' ')));
    ASSERT_LE(page, found.size());
    EXPECT_THAT("\n" + found[page - 1], HasSubstr("\n" + std::string(title) + "\n")) << page;
  }
  EXPECT_THAT(found[0], Not(HasSubstr("On the floor")));  // deeper than the list goes
}

TEST_F(LinksOutside, NamesInTheIndexThePageOfEachEntry) {
  write(linked_document(200));
  const auto found = pages();
  const std::string& index = found.back();
  for (int entry = 1; entry <= 200; ++entry) {
    const std::string number = std::to_string(entry);
    std::size_t page = 0;
    while (page < found.size() &&
           found[page].find(" at bench " + number + " ") == std::string::npos) {
      ++page;
    }
    const std::string wanted = number + " " + std::to_string(page + 1);
    EXPECT_TRUE(index.find("\n" + wanted + "\n") != std::string::npos) << wanted << "\n" << index;
  }
}

TEST_F(LinksOutside, HasALinkWithoutBorderForEveryReferenceThatLeadsSomewhere) {
  write(linked_document(80));
  const std::string file = uncompressed();
  // 11 lines of contents, 2 of 3 key figures, 80 entries in the index
  EXPECT_EQ(count(file, "/Subtype /Link"), 11U + 2U + 80U);
  EXPECT_EQ(count(file, "/Border [\n    0\n    0\n    0\n  ]"), 11U + 2U + 80U);
  EXPECT_EQ(count(ask("pdftotext -raw " + path_ + " - 2>/dev/null").text, "Led nowhere"), 1U);
}

TEST_F(LinksOutside, BreaksAndNumbersPagesAlikeOnBothPapers) {
  write(linked_document(120), Paper::kA4);
  const std::string a4 = text();
  write(linked_document(120), Paper::kLetter);
  EXPECT_EQ(text(), a4);
}

TEST_F(LinksOutside, ListsFourLevelsOfHeadingsAndTheIndexAsBookmarks) {
  write(linked_document(40));
  const std::string json = ask("qpdf --json --json-key=outlines " + path_).text;
  for (const char* title : {"In the store", "On the floor", "At the tray", "Index of entries"}) {
    EXPECT_THAT(json, HasSubstr("\"title\": \"" + std::string(title) + "\""));
  }
}

std::set<std::string> attribute_values(const std::string& html, const std::string& before) {
  std::set<std::string> found;
  for (std::size_t at = html.find(before); at != std::string::npos; at = html.find(before, at)) {
    at += before.size();
    found.insert(html.substr(at, html.find('"', at) - at));
  }
  return found;
}

TEST(LinkedHtml, LeadsOnlyToWhatIsThere) {
  const std::string html = to_html(linked_document(80));
  const auto targets = attribute_values(html, " href=\"#");
  const auto ids = attribute_values(html, " id=\"");
  EXPECT_EQ(targets.size(), 80U + 11U);
  for (const std::string& target : targets) EXPECT_EQ(ids.count(target), 1U) << target;
  EXPECT_EQ(count(html, " id=\""), ids.size());  // each given once
  EXPECT_THAT(html, HasSubstr("<a href=\"#entry-1\"><strong>38.62</strong></a> L"));
  EXPECT_THAT(html, HasSubstr("<dd><strong>7</strong> L</dd>"));
  EXPECT_THAT(html, HasSubstr("<h5 id=\"heading_7\">At the tray</h5>"));
  EXPECT_THAT(html, HasSubstr("<nav aria-label=\"Contents\">"));
}

TEST(LinkedHtml, GivesTheFirstRowAboutAnEntryAnIdOfItsOwn) {
  document::Document document = long_table(3);
  auto& table = std::get<document::Table>(document.sections[0].blocks[1]);
  table.rows[1].entry = table.rows[2].entry = 1'204;
  table.rows[0].cells[0].link = "checks";
  std::get<document::Heading>(document.sections[0].blocks[0]).anchor = "checks";
  EXPECT_EQ(count(to_html(document), "entry_1204"), 0U);
  document.sections.push_back({{document::EntryIndex{"Index", "none"}}});
  const std::string html = to_html(document);
  EXPECT_EQ(count(html, "<tr id=\"entry_1204\">"), 1U);
  EXPECT_THAT(html, HasSubstr("<li><a href=\"#entry_1204\">1\u202F204</a></li>"));
  EXPECT_THAT(html, HasSubstr("<h2 id=\"checks\">"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\" class=\"short\"><a href=\"#checks\">row 1</a>"));
}

}  // namespace
}  // namespace benchwarden::print
