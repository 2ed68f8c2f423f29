#include "document/compose.h"

#include <gtest/gtest.h>

namespace benchwarden::document {
namespace {

Section section(std::vector<Block> blocks, SectionRole role = SectionRole::kBody) {
  return {std::move(blocks), PageBreak::kNone, role};
}

CautionBox caution(const std::string& title) { return {title, {"Take care."}, {"no source"}}; }

/// A report of one month: a link from a figure to a heading, from a cell to a row.
Document month(const std::string& name) {
  Document report;
  report.title = "Month";
  report.subject_lines = {"The site", name};
  Table table;
  table.caption = "Rows";
  table.rows = {{{Cell{"a", {}, {}, "row-1"}}}};
  table.rows.front().anchor = "row-1";
  KeyFigures figures{{KeyFigure{"All", "1", "", "", "", "rows"}}, "figures"};
  report.sections = {
      section({Heading{1, "Rows of " + name, "rows"}, figures, table, Heading{4, "Deep"}}),
      section({Contents{"Own contents"}}),
      section({Heading{1, "Signature"}, Paragraph{"Sign here."}, SignatureLine{{"Name"}}},
              SectionRole::kSignature),
      section({Heading{1, "Cautions"}, caution("Oil"), caution("Of " + name)},
              SectionRole::kCautions),
      section({Heading{1, "Methods"}, Paragraph{"Rounded once."}}, SectionRole::kMethods)};
  return report;
}

Document cover() {
  Document pack;
  pack.title = "Pack";
  pack.subject_lines = {"The site"};
  pack.sections = {
      section({Contents{"What is in it"}}), section({Heading{1, "Changes"}}),
      section({Heading{1, "Cautions"}}, SectionRole::kCautions),
      section({Heading{1, "Methods"}, Paragraph{"Rounded once."}}, SectionRole::kMethods),
      section({Heading{1, "Signature"}}, SectionRole::kSignature)};
  return pack;
}

Document bound() {
  return compose(cover(), 1,
                 {{"m1", "month/5", "Month: May", month("May")},
                  {"m2", "month/6", "Month: June", month("June")}});
}

std::vector<Heading> headings(const Document& document) {
  std::vector<Heading> found;
  for (const Section& one : document.sections) {
    for (const Block& block : one.blocks) {
      if (const auto* heading = std::get_if<Heading>(&block)) found.push_back(*heading);
    }
  }
  return found;
}

template <class Kind>
std::vector<Kind> all(const Document& document) {
  std::vector<Kind> found;
  for (const Section& one : document.sections) {
    for (const Block& block : one.blocks) {
      if (const auto* kind = std::get_if<Kind>(&block)) found.push_back(*kind);
    }
  }
  return found;
}

TEST(Compose, PutsEachPartOnAPageOfItsOwnUnderAHeadingWithItsHeadingsOneLevelDown) {
  std::vector<std::string> seen;
  for (const Heading& one : headings(bound())) {
    seen.push_back(std::to_string(one.level) + " " + one.text);
  }
  const std::vector<std::string> wanted{
      "1 Month: May", "2 Rows of May", "4 Deep",     "1 Month: June", "2 Rows of June",
      "4 Deep",       "1 Changes",     "1 Cautions", "1 Methods",     "1 Signature"};
  EXPECT_EQ(seen, wanted);
  const Document document = bound();
  EXPECT_EQ(document.title, "Pack");
  EXPECT_EQ(document.sections[0].page_break, PageBreak::kNone);
  EXPECT_EQ(document.sections[1].page_break, PageBreak::kBefore);
  EXPECT_EQ(document.sections[2].page_break, PageBreak::kNone);
}

TEST(Compose, KeepsAnchorsLinksAndNamesForMachinesApart) {
  const Document document = bound();
  const auto tables = all<Table>(document);
  ASSERT_EQ(tables.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string part = i == 0 ? "m1" : "m2";
    const std::string name = i == 0 ? "month/5" : "month/6";
    EXPECT_EQ(tables[i].name, name + "/Rows") << "the caption where it had no name";
    EXPECT_EQ(tables[i].rows[0].anchor, part + "-row-1");
    EXPECT_EQ(tables[i].rows[0].cells[0].link, part + "-row-1");
    const KeyFigures figures = all<KeyFigures>(document)[i];
    EXPECT_EQ(figures.name, name + "/figures");
    EXPECT_EQ(figures.figures[0].link, part + "-rows");
  }
  EXPECT_EQ(headings(document)[0].anchor, "m1");
  EXPECT_EQ(headings(document)[1].anchor, "m1-rows");
  EXPECT_EQ(headings(document)[2].anchor, "") << "what has no anchor gets none";
}

TEST(Compose, SaysOnceAtTheEndWhatEveryPartEndsWith) {
  const Document document = bound();
  std::vector<std::string> titles;
  for (const CautionBox& box : all<CautionBox>(document)) titles.push_back(box.title);
  EXPECT_EQ(titles, (std::vector<std::string>{"Oil", "Of May", "Of June"}));
  EXPECT_EQ(all<SignatureLine>(document).size(), 1U);
  const Section& methods = document.sections[document.sections.size() - 2];
  EXPECT_EQ(methods.blocks.size(), 2U) << "heading and the one sentence that all have";
}

TEST(Compose, TellsUnderAPartOnlyWhatTheCoverDoesNot) {
  const Document document = bound();
  EXPECT_EQ(std::get<Paragraph>(document.sections[1].blocks[1]).text, "May");
}

TEST(Compose, HasOneContentsAndTheStandingOfTheWorstPart) {
  EXPECT_EQ(all<Contents>(bound()).size(), 1U);
  EXPECT_EQ(bound().standing, Standing::kForIssue);
  Document draft = month("May");
  draft.standing = Standing::kNotForIssue;
  EXPECT_EQ(compose(cover(), 0, {{"m1", "month/5", "May", draft}}).standing,
            Standing::kNotForIssue);
}

TEST(Compose, WithoutPartsIsTheCover) {
  const Document document = compose(cover(), 1, {});
  EXPECT_EQ(document.sections.size(), cover().sections.size());
}

}  // namespace
}  // namespace benchwarden::document
