#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/text.h"
#include "print/csv.h"
#include "reports/briefing_sheet.h"
#include "reports/fixture.h"
#include "reports/inspection_sheet.h"
#include "reports/walk_round_sheet.h"

namespace benchwarden::reports {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Frame frame() {
  return frame_of(workshop_book().state(), basis_at("2026-11-05T09:00:00+01:00"), {}, {});
}

std::vector<std::string> captions(const document::Document& document) {
  std::vector<std::string> found;
  for (const auto& list : blocks_of<document::Checklist>(document)) found.push_back(list.caption);
  return found;
}

std::vector<std::string> paragraphs(const document::Document& document) {
  std::vector<std::string> found;
  for (const auto& one : blocks_of<document::Paragraph>(document)) found.push_back(one.text);
  return found;
}

WalkRoundFigures walk() {
  const FormAsked walk{"walk-round",
                       "Walk-round",
                       1,
                       {{"exits_clear", "Exits clear", "Doors free.", {"Yes", "No"}, ""}}};
  const FormAsked drum{"container-inspection",
                       "Container inspection",
                       2,
                       {{"closed", "Closed", "Lid shut.", {"Yes", "No"}, ""}}};
  return {frame(),
          walk,
          {drum},
          {{"shop",
            "Workshop room",
            {{"container", "w1", "Oil drum", "Store", "container-inspection"},
             {"cabinet", "f1", "Flammables", "", ""}}},
           {"", "", {{"container", "w2", "", "", "container-inspection"}}}}};
}

TEST(WalkRoundSheet, AsksTheWorkshopOnceAndEachContainerWhereItStands) {
  const auto document = walk_round_document(walk(), project_data());
  EXPECT_THAT(captions(document),
              ElementsAre("Walk-round (form version 1)",
                          "Container inspection (form version 2): w1, Oil drum – Store",
                          "Container inspection (form version 2): w2"));
  std::vector<std::string> rooms;
  for (const auto& heading : blocks_of<document::Heading>(document)) {
    if (heading.level == 2) rooms.push_back(heading.text);
  }
  EXPECT_THAT(rooms, ElementsAre("shop, Workshop room", "In no room of the register"));
  EXPECT_THAT(paragraphs(document),
              testing::Contains("Where to walk: shop, Workshop room: f1, Flammables."));
}

TEST(WalkRoundSheet, ExplainsTheQuestionsOfThingsOnceForAll) {
  const auto document = walk_round_document(walk(), project_data());
  const auto boxes = blocks_of<document::NoteBox>(document);
  ASSERT_EQ(boxes.size(), 1U);
  EXPECT_THAT(boxes[0].lines, ElementsAre("Closed: Lid shut."));
  const auto lists = blocks_of<document::Checklist>(document);
  EXPECT_EQ(lists[0].items[0].text, "Exits clear: Doors free.");
  EXPECT_EQ(lists[1].items[0].text, "Closed");
}

TEST(WalkRoundSheet, AsksOfAThingWhatAppliesToItAndNamesItOnEveryPage) {
  WalkRoundFigures figures = walk();
  figures.forms[0].questions.push_back({"drained", "Drained", "By hand.", {"Yes", "No"}, ""});
  figures.rooms[0].things[0].left_out = {"drained"};
  const auto lists = blocks_of<document::Checklist>(walk_round_document(figures, project_data()));
  ASSERT_EQ(lists.size(), 3U);
  EXPECT_EQ(lists[1].items.size(), 1U);
  EXPECT_EQ(lists[2].items.size(), 2U);
  EXPECT_EQ(lists[2].continued, "Container inspection (form version 2): w2 … continued");
  EXPECT_THAT(base::write_json(walk_round_json(figures)), HasSubstr(R"("not_asked":["drained"])"));
}

TEST(WalkRoundSheet, TellsMachinesWhatIsAskedOfWhat) {
  const std::string csv = print::to_csv(walk_round_document(walk(), project_data()));
  EXPECT_THAT(csv, HasSubstr("walk-round,1,exits_clear,Exits clear: Doors free.,\r\n"));
  EXPECT_THAT(csv, HasSubstr("container-inspection,container/w1,closed,Closed,\r\n"));
  EXPECT_THAT(csv, HasSubstr("container-inspection,container/w2,closed,Closed,\r\n"));
}

TEST(WalkRoundSheet, SaysThatItIsToBeEnteredAndByWhomItWas) {
  const auto document = walk_round_document(walk(), project_data());
  EXPECT_THAT(base::join(paragraphs(document), "\n"),
              HasSubstr("counts once it stands in the book"));
  const auto lines = blocks_of<document::SignatureLine>(document);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_THAT(lines[1].labels, ElementsAre("Entered by", "Day and time", "Numbers of the entries"));
}

TEST(WalkRoundSheet, WithoutAnythingUnderCareAsksTheWorkshopAlone) {
  WalkRoundFigures figures = walk();
  figures.rooms = {{}};
  const auto document = walk_round_document(figures, project_data());
  EXPECT_THAT(captions(document), ElementsAre("Walk-round (form version 1)"));
  EXPECT_THAT(paragraphs(document),
              testing::Contains("The register has no container and no plant."));
}

HistoryLine check(std::uint64_t seq, bool struck) {
  HistoryLine line;
  line.entry.seq = seq;
  line.struck = struck;
  return line;
}

InspectionSheetFigures inspection_sheet_of(const BookUnderTest& book) {
  return {make_history(
              {book.state(), "gauge", "g1", basis_at("2026-11-05T09:00:00+01:00"), {}, {}, {}, {}}),
          {"tool-inspection",
           "Tool inspection",
           2,
           {{"needle_condition", "Needle", "Sharp.", {"Passed"}, ""}}},
          {{10, 0.25}, {20, std::nullopt}}};
}

BookUnderTest book_with_gauge() {
  BookUnderTest book = workshop_book();
  book.put("gauge", "g1", {text("name", "Bench gauge")});
  return book;
}

TEST(InspectionSheet, KeepsTheLastThreeInspectionsThatStand) {
  HistoryFigures history = inspection_sheet_of(book_with_gauge()).history;
  for (const std::uint64_t seq : {1U, 2U, 3U, 4U, 5U})
    history.checks.push_back(check(seq, seq == 4));
  keep_last_checks(history, 3);
  std::vector<std::uint64_t> seqs;
  for (const HistoryLine& line : history.checks) seqs.push_back(line.entry.seq);
  EXPECT_THAT(seqs, ElementsAre(2, 3, 5));
}

TEST(InspectionSheet, AsksGoingDownWhatWasComparedGoingUpAlone) {
  const auto references = [](const std::vector<PointAsked>& points) {
    std::vector<double> found;
    for (const PointAsked& point : points) found.push_back(point.reference);
    return found;
  };
  EXPECT_THAT(references(up_and_down({{0, 0.4}, {10, 0.4}, {20, 0.4}})),
              ElementsAre(0, 10, 20, 20, 10, 0));
  EXPECT_THAT(references(up_and_down({{0, 0.4}, {10, 0.4}, {0, 0.4}})), ElementsAre(0, 10, 0));
  EXPECT_THAT(references(up_and_down({{40, 0.4}})), ElementsAre(40));
}

TEST(InspectionSheet, HasRoomForFivePointsUpAndDownWhereNoneIsKnown) {
  InspectionSheetFigures figures = inspection_sheet_of(book_with_gauge());
  figures.points.clear();
  const auto document = inspection_sheet_document(figures, project_data());
  EXPECT_EQ(table(document, "points").rows.size(), 10U);
}

TEST(InspectionSheet, HasTheLastPointsWithTheLimitOfTheClassThenEmptyLines) {
  const auto document =
      inspection_sheet_document(inspection_sheet_of(book_with_gauge()), project_data());
  const document::Table points = table(document, "points");
  ASSERT_EQ(points.rows.size(), 4U);
  EXPECT_THAT(texts(points.rows[0]), ElementsAre("10.0", "0.25", "", ""));
  EXPECT_THAT(texts(points.rows[1]), ElementsAre("20.0", "–", "", ""));
  EXPECT_THAT(texts(points.rows[2]), ElementsAre("", "", "", ""));
  EXPECT_THAT(captions(document), ElementsAre("Tool inspection (form version 2)"));
  const base::Json json = inspection_sheet_json(inspection_sheet_of(book_with_gauge()));
  EXPECT_EQ(base::write_json(*json.find("points")),
            R"([{"reference_bar":10,"limit_bar":0.25},{"reference_bar":20,"limit_bar":null}])");
  const std::string csv = print::to_csv(document);
  EXPECT_THAT(csv, HasSubstr("points,2,reference_bar,20.0,bar\r\n"));
  EXPECT_THAT(csv, HasSubstr("tool-inspection,1,needle_condition,Needle: Sharp.,\r\n"));
  EXPECT_THAT(csv, testing::Not(HasSubstr("points,1,detail"))) << "room to write is no figure";
  EXPECT_THAT(csv, testing::Not(HasSubstr("points,3,"))) << "nothing stands in an empty row";
}

BriefingSheetFigures briefing() {
  return {frame(),
          "used-oil-skin",
          {{"own.briefing", "workshop", "2026-11-25", "", "common practice, no source",
            findings::Confidence::kOwnRule, "A briefing holds until its day.", ""}},
          {{"p3", "Bench A", 41, berlin().local(at("2026-10-01T08:00:00+02:00")), {2027, 10, 1}}}};
}

TEST(BriefingSheet, HasTheWordsOfTheCautionItsSourcesAndTenLinesToSign) {
  const auto document = briefing_sheet_document(briefing(), project_data());
  const Caution& caution = *project_data().cautions.find("used-oil-skin");
  const auto boxes = blocks_of<document::CautionBox>(document);
  ASSERT_EQ(boxes.size(), 1U);
  EXPECT_EQ(boxes[0].sentences, caution.sentences);
  const std::string csv = print::to_csv(document);
  EXPECT_THAT(csv, HasSubstr("caution,1,sentence,"));
  EXPECT_THAT(csv, HasSubstr("caution,4,sentence,"));
  for (const std::string& source : caution.sources) {
    EXPECT_THAT(boxes[0].sources.at(0), HasSubstr(source));
  }
  EXPECT_EQ(blocks_of<document::SignatureLine>(document).size(), 11U) << "ten, and who enters it";
  EXPECT_THAT(base::join(paragraphs(document), "\n"), HasSubstr("Local rules"));
}

TEST(BriefingSheet, TellsWhoWasBriefedUntilWhenAndByWhichRuleItHolds) {
  const auto document = briefing_sheet_document(briefing(), project_data());
  EXPECT_THAT(texts(table(document, "briefed").rows.at(0)),
              ElementsAre("Bench A", "2026-10-01", "2027-10-01", "41"));
  EXPECT_THAT(
      paragraphs(document),
      testing::Contains("A briefing holds until its day. Source: common practice, no source "
                        "(the workshop's own rule, not of a text)."));
  const base::Json json = briefing_sheet_json(briefing(), project_data());
  EXPECT_EQ(*json.find("briefed")->array()->at(0).find("valid_until")->string(), "2027-10-01");
  BriefingSheetFigures nobody = briefing();
  nobody.rules.clear();
  nobody.briefed.clear();
  const auto bare = briefing_sheet_document(nobody, project_data());
  EXPECT_THAT(table(bare, "briefed").rows, IsEmpty());
  EXPECT_THAT(base::join(paragraphs(bare), "\n"), HasSubstr("No rule in force says"));
}

}  // namespace
}  // namespace benchwarden::reports
