#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/text.h"
#include "print/html.h"
#include "reports/findings_list_document.h"
#include "reports/fixture.h"

namespace benchwarden::reports {
namespace {

using findings::Confidence;
using findings::Severity;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

FindingFigures found(const std::string& id, Severity severity, const std::string& since,
                     const std::string& due = "") {
  FindingFigures one;
  one.finding.authority = {"rule." + id, "pack-p",        "2026-11-25",
                           "",           "Act 1, s 2",    Confidence::kFromMemory,
                           "Says so.",   "Somebody does."};
  one.finding.severity = severity;
  one.finding.since = at(since);
  if (!due.empty()) one.finding.due = *base::parse_date(due);
  one.finding.values = {{"measured", {"210", "l"}}, {"limit", {"205", "l"}}};
  one.finding.entries = {3, 1204};
  one.subject = "container/" + id;
  one.sentence = "Drum " + id + " stands.";
  one.measured = "210 L";
  one.limit = "205 L";
  return one;
}

FindingsListFigures list_of(const BookUnderTest& book) {
  FindingsListFigures figures{
      frame_of(book.state(), basis_at("2026-11-05T09:00:00+01:00"), {{"p1", "Office"}}, {}),
      berlin(),
      {},
      400,
      {},
      {}};
  figures.findings = {found("note", Severity::kNote, "2026-10-01T08:00:00+02:00"),
                      found("later", Severity::kOver, "2026-10-02T08:00:00+02:00"),
                      found("due", Severity::kDue, "2026-10-01T08:00:00+02:00", "2026-12-01"),
                      found("first", Severity::kOver, "2026-10-01T08:00:00+02:00")};
  figures.findings[1].acknowledged =
      AcknowledgementFigures{{7,
                              "finding-acknowledged",
                              berlin().local(at("2026-10-20T08:00:00+02:00")),
                              berlin().local(at("2026-10-20T08:00:00+02:00")),
                              {"p1", true}},
                             *base::parse_date("2026-12-24"),
                             "a drum is on its way"};
  figures.findings[3].closed_by = 9;
  sort_findings(figures.findings, figures.zone);
  figures.due = {{{2026, 11, 30},
                  "own.tool",
                  "tool/r1",
                  "",
                  "R1: due by 2026-11-30.",
                  "common practice, no source",
                  Confidence::kOwnRule,
                  0}};
  figures.planned = {{{2026, 12, 3},
                      "planned-collection",
                      "collection/c2",
                      "",
                      "Collection c2.",
                      "Entry 11 of the book",
                      std::nullopt,
                      11}};
  return figures;
}

TEST(FindingsList, PutsWhatWeighsMostFirstThenWhatBeganOrIsDueFirst) {
  std::vector<std::string> subjects;
  for (const FindingFigures& one : list_of(workshop_book()).findings) {
    subjects.push_back(one.subject);
  }
  EXPECT_THAT(subjects,
              ElementsAre("container/first", "container/later", "container/due", "container/note"));
}

TEST(FindingsList, TellsOfEachFindingWhatItRestsOnAndWhoSawIt) {
  const auto document = findings_list_document(list_of(workshop_book()), project_data());
  const document::Table over = table(document, "over");
  ASSERT_EQ(over.rows.size(), 2U);
  EXPECT_THAT(texts(over.rows[0]),
              ElementsAre("Drum first stands.", "210 L", "205 L", "2026-10-01", "–"));
  EXPECT_THAT(
      over.rows[0].details,
      ElementsAre("Rule: Says so. What ends it: Somebody does.",
                  "Source: Act 1, s 2 (from memory, not read in the text). Pack "
                  "pack-p, edition 2026-11-25.",
                  "Entries behind it: 3, 1\u202F204", "An action about it is recorded: entry 9"));
  EXPECT_THAT(over.rows[1].details,
              Contains("Acknowledged by Office on 2026-10-20\u00A0"
                       "08:00 until 2026-12-24, entry 7. Reason: a drum is on its way"));
  EXPECT_EQ(texts(table(document, "due").rows.at(0)).back(), "2026-12-01");
  EXPECT_EQ(table(document, "note").rows.size(), 1U);
}

TEST(FindingsList, HasABoxToTickForEachThingDueAndTheEntryOfAPlan) {
  const auto document = findings_list_document(list_of(workshop_book()), project_data());
  EXPECT_THAT(
      texts(table(document, "calendar").rows.at(0)),
      ElementsAre("2026-11-30", "R1: due by 2026-11-30.",
                  "common practice, no source (the workshop's own rule, not of a text)", "☐"));
  const document::Row plan = table(document, "planned").rows.at(0);
  EXPECT_THAT(texts(plan), ElementsAre("2026-12-03", "Collection c2.", "11", "☐"));
  EXPECT_EQ(plan.entry, 11U);
}

TEST(FindingsList, SaysAsOfWhenItJudges) {
  const auto document = findings_list_document(list_of(workshop_book()), project_data());
  EXPECT_THAT(base::join(document.subject_lines, "\n"),
              HasSubstr("Judged as of 2026-11-05\u00A0"
                        "09:00, the time of the last entry, in the zone Europe/Berlin"));
}

TEST(FindingsList, CountsTheSameOnPaperAndForMachines) {
  const FindingsListFigures figures = list_of(workshop_book());
  const auto document = findings_list_document(figures, project_data());
  std::vector<std::string> values;
  const document::KeyFigures counts = blocks_of<document::KeyFigures>(document).at(0);
  for (const document::KeyFigure& figure : counts.figures) {
    values.push_back(figure.label + " " + figure.value);
  }
  EXPECT_THAT(values, ElementsAre("Beyond a limit 2", "To be done by a day 1", "To know 1",
                                  "Planned collections 1"));
  const base::Json json = findings_list_json(figures);
  EXPECT_EQ(json.find("findings")->array()->size(), 4U);
  const base::Json& later = json.find("findings")->array()->at(1);
  EXPECT_EQ(base::write_json(*later.find("entries")), "[3,1204]");
  EXPECT_EQ(*later.find("confidence")->string(), "from-memory");
  EXPECT_EQ(*later.find("acknowledged")->find("until")->string(), "2026-12-24");
  EXPECT_EQ(json.find("due")->array()->size(), 1U);
  EXPECT_EQ(*json.find("planned")->array()->at(0).find("day")->string(), "2026-12-03");
}

TEST(FindingsList, OfAnEmptyBookSaysThatNothingIsFound) {
  FindingsListFigures empty = list_of(BookUnderTest{});
  empty.findings.clear();
  empty.due.clear();
  empty.planned.clear();
  const std::string html = print::to_html(findings_list_document(empty, project_data()));
  EXPECT_THAT(html, HasSubstr("find nothing beyond a limit"));
  EXPECT_THAT(html, HasSubstr("No collection is planned."));
}

}  // namespace
}  // namespace benchwarden::reports
