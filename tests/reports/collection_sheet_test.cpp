#include "reports/collection_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "print/csv.h"
#include "reports/collection_sheet_document.h"
#include "reports/fixture.h"

namespace benchwarden::reports {
namespace {

using entries::CollectionStage;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

CollectionSheetFigures told_of_collection(const BookUnderTest& book,
                                          const std::string& collection = "c1") {
  return make_collection_sheet({book.state(),
                                collection,
                                basis_at("2026-11-05T09:00:00+01:00"),
                                book.entries_of("collection"),
                                {{"p1", "Bench A"}},
                                {}});
}

document::Document collection_document(const BookUnderTest& book) {
  return collection_sheet_document(told_of_collection(book), project_data());
}

std::uint64_t tell_stage(BookUnderTest& book, const std::string& stage, const std::string& when,
                         entries::Fields fields, entries::Takes takes) {
  takes.collection = "c1";
  fields.push_back({"collection", entries::Id{"c1"}});
  fields.push_back(code("stage", stage));
  std::sort(fields.begin(), fields.end(),
            [](const auto& a, const auto& b) { return a.name < b.name; });
  return book.enter({"collection", when, fields, {takes}});
}

/// Two drums are planned: 4 L of oil and 1.25 kg of rags.
BookUnderTest planned_book() {
  BookUnderTest book = workshop_book();
  book.put("carrier", "k1",
           {text("name", "Harbour Haulage"),
            {"registration_expires", base::CivilDate{2027, 3, 31}},
            text("registration_number", "INV-7"),
            text("telephone", "000 0001")});
  book.drain("w1", 4'000'000, "2026-10-03T09:00:00+02:00");
  book.enter(
      {"rag-bin", "2026-10-04T09:00:00+02:00", {}, {entries::Adds{"drum", mass_g(1'250'000)}}});
  tell_stage(book, "planned", "2026-10-20T09:00:00+02:00",
             {{"planned_date", base::CivilDate{2026, 10, 28}}},
             {"",
              CollectionStage::kPlanned,
              "k1",
              "",
              {{"w1", volume_ml(4'000'000), false}, {"drum", mass_g(1'250'000), false}}});
  return book;
}

/// The oil goes, all of it; the rags are left.
BookUnderTest taken_book() {
  BookUnderTest book = planned_book();
  tell_stage(book, "taken", "2026-10-28T10:00:00+01:00",
             {text("document_number", "CN-18"), text("refused", "Rag drum: lid bent")},
             {"", CollectionStage::kTaken, "k1", "CN-18", {{"w1", volume_ml(3'900'000), true}}});
  return book;
}

TEST(CollectionSheet, OfThePlanIsADraft) {
  const CollectionSheetFigures figures = told_of_collection(planned_book());
  EXPECT_TRUE(figures.known);
  EXPECT_EQ(figures.state, SheetState::kDraft);
  EXPECT_EQ(figures.carrier.registration, "INV-7");
  EXPECT_EQ(figures.carrier.registration_expires, "2027-03-31");
  EXPECT_EQ(figures.planned_for, (base::CivilDate{2026, 10, 28}));
  ASSERT_EQ(figures.loads.size(), 2U);
  EXPECT_EQ(figures.loads[0].amount, 4'000'000);
  EXPECT_EQ(figures.loads[0].mass, 3'480'000);  // 870 kg/m³
  EXPECT_EQ(figures.total_volume, 4'000'000);
  EXPECT_EQ(figures.total_mass, 4'730'000);
  EXPECT_THAT(figures.left_behind, IsEmpty());
  const auto paragraphs = blocks_of<document::Paragraph>(collection_document(planned_book()));
  EXPECT_THAT(paragraphs.at(0).text, HasSubstr("PLANNED: nothing is recorded as handed over."));
  EXPECT_THAT(paragraphs.at(1).text,
              HasSubstr("replaces no statutory consignment note, transfer note or manifest"));
}

std::vector<std::string> shown_of(const document::Document& document) {
  std::vector<std::string> shown;
  for (const auto& one : blocks_of<document::KeyFigures>(document)) {
    for (const auto& figure : one.figures) shown.push_back(figure.label);
  }
  for (const auto& row : table(document, "parties").rows) shown.push_back(row.cells[0].text);
  for (const auto& one : blocks_of<document::Paragraph>(document)) shown.push_back(one.text);
  return shown;
}

TEST(CollectionSheet, SaysOfAPlanThatItIsOneAndNeverThatItWasHandedOver) {
  const std::vector<std::string> planned = shown_of(collection_document(planned_book()));
  EXPECT_THAT(planned, Contains("Containers, planned"));
  EXPECT_THAT(planned, Contains("Carrier of the plan"));
  EXPECT_THAT(planned, Contains(HasSubstr("To be signed when it is handed over")));
  EXPECT_THAT(planned, Not(Contains("Handed over by")));
  const std::vector<std::string> taken = shown_of(collection_document(taken_book()));
  EXPECT_THAT(taken, Contains("Handed over by"));
  EXPECT_THAT(taken, Not(Contains(HasSubstr(", planned"))));
}

TEST(CollectionSheet, GivesMachinesNoDashForAMassThatIsNotKnown) {
  BookUnderTest book = planned_book();
  tell_stage(book, "planned", "2026-10-21T10:00:00+02:00", {},
             {"", CollectionStage::kPlanned, "k1", "", {{"w1", {}, false}}});
  const std::string csv = print::to_csv(collection_document(book));
  EXPECT_THAT(csv, HasSubstr("figures,mass_kg,value,,kg\r\n"));
  EXPECT_THAT(csv, Not(HasSubstr("–,kg")));
}

TEST(CollectionSheet, OfAnUnknownCollectionKnowsNothing) {
  EXPECT_FALSE(told_of_collection(planned_book(), "c9").known);
}

TEST(CollectionSheet, SaysWhatWasTakenAndWhatWasLeft) {
  const CollectionSheetFigures figures = told_of_collection(taken_book());
  EXPECT_EQ(figures.state, SheetState::kTaken);
  EXPECT_THAT(figures.documents, ElementsAre("CN-18"));
  ASSERT_EQ(figures.loads.size(), 1U);
  EXPECT_EQ(figures.loads[0].amount, 3'900'000) << "as logged, not as planned";
  EXPECT_EQ(figures.loads[0].mass, 3'393'000);
  EXPECT_EQ(figures.loads[0].emptied, true);
  ASSERT_TRUE(figures.loads[0].accumulation_start.has_value());
  EXPECT_EQ(base::format_rfc3339(*figures.loads[0].accumulation_start),
            "2026-10-03T09:00:00+02:00");
  EXPECT_THAT(figures.left_behind, ElementsAre(std::pair("drum", "Rag drum")));
  const document::Document document = collection_document(taken_book());
  const document::Table loads = table(document, "loads");
  EXPECT_THAT(texts(loads.rows.at(0)),
              ElementsAre("w1, Oil drum", "Used damper oil", "13 01 10*", "3.900", "3.393", "–",
                          "yes", "2026-10-03", "13"));
  EXPECT_EQ(loads.rows[0].entry, 13U);
  EXPECT_THAT(texts(loads.rows.at(1)),
              ElementsAre("In all", "", "", "3.900", "3.393", "", "", "", ""));
  const auto boxes = blocks_of<document::NoteBox>(document);
  ASSERT_EQ(boxes.size(), 1U);
  EXPECT_THAT(boxes[0].lines, ElementsAre("drum, Rag drum", "Entry 13: Rag drum: lid bent"));
  EXPECT_EQ(blocks_of<document::SignatureLine>(document).size(), 2U);
}

TEST(CollectionSheet, CountsAnAmountAsCorrected) {
  BookUnderTest book = taken_book();
  book.amend(
      {13,
       "2026-10-29T09:00:00+01:00",
       "misread",
       {text("note", "as on the note")},
       {entries::Takes{
           "c1", CollectionStage::kTaken, "k1", "CN-18", {{"w1", volume_ml(3'800'000), true}}}}});
  const CollectionSheetFigures figures = told_of_collection(book);
  EXPECT_EQ(figures.loads.at(0).amount, 3'800'000);
  ASSERT_EQ(figures.stages.size(), 2U);
  EXPECT_EQ(figures.stages[1].corrections.size(), 1U);
  EXPECT_THAT(table(collection_document(book), "stages").rows.at(1).details,
              Contains(HasSubstr("Corrected by entry 14")));
}

TEST(CollectionSheet, SaysThatAllWasRefused) {
  BookUnderTest book = planned_book();
  tell_stage(book, "not-taken", "2026-10-28T10:00:00+01:00", {text("refused", "Wrong papers")},
             {"", CollectionStage::kNotTaken, "k1", "", {}});
  const CollectionSheetFigures figures = told_of_collection(book);
  EXPECT_EQ(figures.state, SheetState::kNothingTaken);
  EXPECT_EQ(figures.left_behind.size(), 2U);
  EXPECT_THAT(blocks_of<document::NoteBox>(collection_document(book)).at(0).lines,
              ElementsAre("w1, Oil drum", "drum, Rag drum", "Entry 13: Wrong papers"));
  EXPECT_THAT(blocks_of<document::SignatureLine>(collection_document(book)), IsEmpty());
  EXPECT_THAT(shown_of(collection_document(book)),
              Contains(HasSubstr("nothing is recorded as handed over")));
  tell_stage(book, "planned", "2026-10-30T10:00:00+01:00",
             {{"planned_date", base::CivilDate{2026, 11, 9}}},
             {"", CollectionStage::kPlanned, "k1", "", {{"w1", volume_ml(4'000'000), false}}});
  EXPECT_EQ(told_of_collection(book).state, SheetState::kDraft) << "planned anew";
  EXPECT_EQ(told_of_collection(book).loads.size(), 1U);
}

TEST(CollectionSheet, KeepsAStruckTakingForTheRecordOnly) {
  BookUnderTest book = taken_book();
  book.amend({13, "2026-10-28T11:00:00+01:00", "wrong collection", {}, {}});
  const CollectionSheetFigures figures = told_of_collection(book);
  EXPECT_EQ(figures.state, SheetState::kDraft);
  EXPECT_EQ(figures.stages.size(), 2U);
  EXPECT_TRUE(figures.stages[1].struck);
}

TEST(CollectionSheet, TellsSuspicionsAndTestsSinceTheContainerWasEmptied) {
  BookUnderTest book = workshop_book();
  const auto drained = [&](const std::string& container, const std::string& contamination,
                           const std::string& when) {
    return book.enter(
        {"oil-drained",
         when,
         {code("contamination", contamination)},
         {entries::Adds{container, volume_ml(100'000)},
          entries::Notes{
              "container", container, {"oil-drained", {code("contamination", contamination)}}}}});
  };
  const auto test = [&](const std::string& thing_class, const std::string& id,
                        std::int64_t halogens, const std::string& when) {
    const entries::Fields fields{number("halogens_ppm", "ppm", halogens * 1'000)};
    return book.enter(
        {"oil-test", when, fields, {entries::Notes{thing_class, id, {"oil-test", fields}}}});
  };
  drained("w1", "water", "2026-09-01T09:00:00+02:00");
  test("container", "w1", 3, "2026-09-02T09:00:00+02:00");
  book.enter({"container-change",
              "2026-09-03T09:00:00+02:00",
              {},
              {entries::Handles{"w1", entries::ContainerAct::kEmptied}}});
  drained("w1", "none", "2026-09-04T09:00:00+02:00");
  const auto suspected = drained("w2", "chlorinated", "2026-09-05T09:00:00+02:00");
  book.enter({"transfer",
              "2026-09-06T09:00:00+02:00",
              {},
              {entries::Moves{"w2", "w1", volume_ml(50'000)}}});
  const auto old_of_stream = test("stream", "oil", 5, "2026-08-01T09:00:00+02:00");
  const auto of_stream = test("stream", "oil", 7, "2026-08-20T09:00:00+02:00");
  const auto of_drum = test("container", "w1", 400, "2026-09-07T09:00:00+02:00");
  tell_stage(book, "taken", "2026-10-28T10:00:00+01:00", {text("document_number", "CN-18")},
             {"", CollectionStage::kTaken, "k1", "CN-18", {{"w1", volume_ml(150'000), true}}});
  test("container", "w1", 9, "2026-10-29T09:00:00+01:00");
  const SheetLoad load = told_of_collection(book).loads.at(0);
  ASSERT_EQ(load.suspicions.size(), 1U) << "before the emptying is another content";
  EXPECT_EQ(load.suspicions[0].seq, suspected) << "it came over with the content of w2";
  ASSERT_EQ(load.tests.size(), 2U);
  EXPECT_EQ(load.tests[0].seq, of_stream);
  EXPECT_NE(load.tests[0].seq, old_of_stream);
  EXPECT_EQ(load.tests[1].seq, of_drum);
  const auto rows = table(collection_document(book), "loads").rows;
  EXPECT_THAT(rows.at(0).details,
              Contains(HasSubstr("Suspected contamination since it was last emptied: entry " +
                                 std::to_string(suspected) + " of 2026-09-05")));
  EXPECT_THAT(rows.at(0).details, Contains(HasSubstr("halogens_ppm: 400\u00A0ppm")));
}

TEST(CollectionSheet, SaysWhichHazardsWereNotEntered) {
  BookUnderTest book = taken_book();
  EXPECT_THAT(told_of_collection(book).loads.at(0).hazards_missing,
              ElementsAre("halogenated", "flash_point_c"));
  book.put("stream", "oil", {number("flash_point_c", "c", 95'000), code("halogenated", "no")});
  EXPECT_THAT(told_of_collection(book).loads.at(0).hazards_missing, IsEmpty());
  EXPECT_EQ(told_of_collection(book).loads.at(0).hazards.size(), 3U);
}

TEST(CollectionSheet, GivesTheSameFiguresToMachines) {
  const base::Json json = collection_sheet_json(told_of_collection(taken_book()));
  EXPECT_EQ(*json.find("state")->string(), "taken");
  const base::Json& load = json.find("loads")->array()->at(0);
  EXPECT_EQ(load.find("amount")->number()->token, "3900");
  EXPECT_EQ(load.find("mass_kg")->number()->token, "3.393");
  EXPECT_EQ(*json.find("left_behind")->array()->at(0).string(), "drum");
  EXPECT_EQ(json.find("total_mass_kg")->number()->token, "3.393");
}

}  // namespace
}  // namespace benchwarden::reports
