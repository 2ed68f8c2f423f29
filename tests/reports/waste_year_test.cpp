#include "reports/waste_year.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/fixture.h"
#include "reports/waste_year_document.h"

namespace benchwarden::reports {
namespace {

using document::RowKind;
using document::Table;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr const char* kAsOf = "2026-11-05T09:00:00+01:00";

WasteYearFigures year_of(const BookUnderTest& book, int year = 2026,
                         const std::vector<std::string>& packs = {},
                         const std::map<int, MonthSigned>& closings = {}) {
  std::vector<ReturnsStated> stated;
  for (const std::string& pack : packs) {
    const auto* found = project_data().returns.find(pack);
    if (found == nullptr) throw std::runtime_error("no returns of " + pack);
    stated.push_back({pack, pack, found->returns});
  }
  return make_waste_year({book.state(),
                          year,
                          basis_at(kAsOf),
                          book.entries(),
                          {{"p1", "Bench A"}},
                          {},
                          closings,
                          stated,
                          {},
                          {2026, 3}});
}

document::Document year_document(const WasteYearFigures& figures) {
  return waste_year_document(figures, project_data());
}

const StreamYear& stream(const WasteYearFigures& figures, const std::string& id) {
  for (const StreamYear& one : figures.streams) {
    if (one.sums.facts.id == id) return one;
  }
  throw std::runtime_error("no stream " + id);
}

// By hand, from october_book: 10 L in September; 552.5 mL in October (waste_month_test); 7 mL on
// the first of November. 5 L were collected in October.
TEST(WasteYear, HasTheFiguresOfItsMonths) {
  const WasteYearFigures figures = year_of(october_book());
  const StreamYear& oil = stream(figures, "oil");
  ASSERT_EQ(oil.months.size(), 11U) << "those that had begun by November";
  EXPECT_EQ(oil.months[8].arisen, 10'000'000);
  EXPECT_EQ(oil.months[9].opening, 10'000'000);
  EXPECT_EQ(oil.months[9].arisen, 552'500);
  EXPECT_EQ(oil.months[9].collected, 5'000'000);
  EXPECT_EQ(oil.months[9].other, 0);
  EXPECT_EQ(oil.months[9].closing, 5'552'500);
  EXPECT_EQ(oil.months[9].arisen_mass, 481'000);
  EXPECT_EQ(oil.sums.arisen, 10'559'500);
  EXPECT_EQ(oil.sums.standing, 5'559'500);
  // 8.700 + 0.481 + 0.006 kg: sums of the masses of the months, each rounded once.
  EXPECT_EQ(oil.sums.arisen_mass, 9'187'000);
  EXPECT_EQ(figures.hazardous.arisen, 9'187'000 + 1'250'000);
  EXPECT_EQ(figures.state, MonthState::kRunning);
}

TEST(WasteYear, AgreesWithTheReportOfEachMonth) {
  const BookUnderTest book = october_book();
  const WasteYearFigures year = year_of(book);
  for (int number = 1; number <= 11; ++number) {
    const WasteMonthFigures month = figures_of(book, {2026, number}, kAsOf);
    for (const StreamFigures& one : month.streams) {
      const StreamMonth& of_year =
          stream(year, one.facts.id).months.at(static_cast<std::size_t>(number) - 1);
      EXPECT_EQ(of_year.arisen, one.arisen) << number << one.facts.id;
      EXPECT_EQ(of_year.collected, one.collected) << number << one.facts.id;
      EXPECT_EQ(of_year.closing, one.standing) << number << one.facts.id;
      EXPECT_EQ(of_year.arisen_mass, one.arisen_mass) << number << one.facts.id;
    }
  }
}

TEST(WasteYear, ClosesEachMonthAndOpensTheNextWithIt) {
  BookUnderTest book = october_book();
  book.enter({"container-change",
              "2026-11-03T09:00:00+01:00",
              {},
              {entries::Handles{"w2", entries::ContainerAct::kEmptied}}});
  const StreamYear oil = stream(year_of(book), "oil");
  EXPECT_EQ(oil.other, -197'500) << "w2 was emptied without a collection";
  std::int64_t opening = oil.opening;
  for (const StreamMonth& month : oil.months) {
    EXPECT_EQ(month.opening, opening);
    EXPECT_EQ(month.opening + month.arisen - month.collected + month.other, month.closing);
    opening = month.closing;
  }
  EXPECT_EQ(oil.opening + oil.sums.arisen - oil.sums.collected + oil.other, oil.sums.standing);
}

TEST(WasteYear, OpensWithWhatStoodBefore) {
  BookUnderTest book = october_book();
  book.drain("w1", 3'000'000, "2025-12-31T23:59:00+01:00");
  EXPECT_EQ(stream(year_of(book), "oil").opening, 3'000'000);
  EXPECT_EQ(stream(year_of(book, 2025), "oil").sums.standing, 3'000'000);
  EXPECT_EQ(stream(year_of(book, 2025), "oil").months.size(), 12U);
}

TEST(WasteYear, OfWhatHasNotBegunHasNoFigures) {
  const WasteYearFigures figures = year_of(october_book(), 2027);
  EXPECT_EQ(figures.state, MonthState::kNotBegun);
  EXPECT_THAT(figures.streams, IsEmpty());
  EXPECT_THAT(year_document(figures).subject_lines,
              testing::Contains(HasSubstr("before the year begins: nothing is counted")));
}

TEST(WasteYear, SaysWhereTheBookBegins) {
  const auto says = HasSubstr("The book begins in March 2026");
  EXPECT_THAT(year_document(year_of(october_book())).subject_lines, testing::Contains(says));
  EXPECT_THAT(year_document(year_of(october_book(), 2025)).subject_lines, testing::Contains(says));
  EXPECT_THAT(year_document(year_of(october_book(), 2027)).subject_lines,
              testing::Not(testing::Contains(says)));
}

TEST(WasteYear, CountsCollectionsAndDocumentsNotContainers) {
  BookUnderTest book = october_book();
  const auto load = [](const char* container) {
    entries::TakenLoad one;
    one.container = container;
    one.amount.volume = quantities::Microlitres(50'000);
    return one;
  };
  entries::Takes takes;
  takes.collection = "c2";
  takes.stage = entries::CollectionStage::kTaken;
  takes.document_number = "CN-18";
  takes.loads = {load("w1"), load("w2")};
  book.enter({"collection", "2026-11-04T09:00:00+01:00", {}, {takes}});
  const WasteYearFigures figures = year_of(book);
  EXPECT_EQ(figures.consignments.size(), 3U);
  EXPECT_EQ(count_collections(figures.consignments), 2U);
  EXPECT_EQ(count_documents_not_back(figures.consignments), 2U);
}

TEST(WasteYear, ListsConsignmentsWithTheirCarriers) {
  BookUnderTest book = october_book();
  book.put("carrier", "k1",
           {text("name", "Harbour Haulage"), text("registration_number", "INV-7")});
  const WasteYearFigures figures = year_of(book);
  ASSERT_EQ(figures.consignments.size(), 1U);
  EXPECT_EQ(figures.consignments[0].document_number, "CN-17");
  ASSERT_EQ(figures.carriers.size(), 1U);
  EXPECT_EQ(figures.carriers[0].facts.registration, "INV-7");
  EXPECT_EQ(figures.carriers[0].collections, 1U);
  const Table printed = table(year_document(figures), "consignments");
  ASSERT_EQ(printed.rows.size(), 3U);
  EXPECT_EQ(printed.rows[0].cells[0].text, "Used damper oil (13 01 10*)");
  EXPECT_THAT(texts(printed.rows[1]),
              ElementsAre("2026-10-28", "CN-17", "Harbour Haulage", "w1, Oil drum", "5.000",
                          "4.350", "–", "not yet", "20"));
  EXPECT_EQ(printed.rows[1].entry, 20U);
  EXPECT_THAT(texts(printed.rows[2]),
              ElementsAre("All loads", "", "", "", "5.000", "", "", "", ""));
}

TEST(WasteYear, CountsWhatIsLateCorrectedAndUnconfirmedWithEntryNumbers) {
  const auto boxes = blocks_of<document::NoteBox>(year_document(year_of(october_book())));
  ASSERT_EQ(boxes.size(), 1U);
  EXPECT_THAT(
      boxes[0].lines,
      ElementsAre("Recorded after the month had ended: 1 (numbers in the book: 21)",
                  "Corrected or struck out: 2 (numbers in the book: 10, 15)",
                  "Recorded without a PIN and not confirmed since: 1 (numbers in the book: 17)",
                  "Recorded without a PIN, by somebody else than it says: none"));
}

TEST(WasteYear, SaysWhichMonthsAreClosedAndStillAsSigned) {
  const auto figures = year_of(october_book(), 2026, {}, {{9, {30, true}}, {10, {31, false}}});
  const Table closing = table(year_document(figures), "closing");
  ASSERT_EQ(closing.rows.size(), 12U);
  EXPECT_THAT(texts(closing.rows[8]),
              ElementsAre("September 2026", "over", "entry 30", "as signed"));
  EXPECT_EQ(closing.rows[8].entry, 30U);
  EXPECT_THAT(texts(closing.rows[9]), ElementsAre("October 2026", "over", "entry 31",
                                                  "not as signed: see the report of the month"));
  EXPECT_THAT(texts(closing.rows[10]), ElementsAre("November 2026", "running", "not closed", "–"));
  EXPECT_EQ(closing.rows[11].cells[1].text, "not begun");
}

TEST(WasteYear, SumsReturnsByQuarterAndCode) {
  const auto figures = year_of(october_book(), 2026, {"england"});
  ASSERT_EQ(figures.returns.size(), 2U);
  const ReturnFigures& quarters = figures.returns[0];
  ASSERT_EQ(quarters.lines.size(), 8U) << "four quarters, two codes";
  EXPECT_EQ(quarters.lines[6].quarter, 4);
  EXPECT_EQ(quarters.lines[6].code, "13 01 10");
  EXPECT_EQ(quarters.lines[6].mass, 4'350'000);
  EXPECT_EQ(quarters.lines[6].thousandths, 4'350);
  EXPECT_EQ(quarters.lines[0].mass, 0);
  EXPECT_THAT(figures.returns[1].lines, IsEmpty()) << "words alone";
  const Table printed = table(year_document(figures), "return-consignee-quarter");
  EXPECT_EQ(printed.columns[3].unit, "kg");
  EXPECT_THAT(texts(printed.rows[6]),
              ElementsAre("2026, quarter 4", "13 01 10*", "Used damper oil", "4.350", "–"));
  EXPECT_EQ(printed.rows[6].cells[2].link, "stream-oil");
}

// 10.437 kg = 23.0096… lb (1 lb = 0.45359237 kg); 0.010437 t.
TEST(WasteYear, ConvertsReturnsOnceIntoTheirUnit) {
  BookUnderTest book = october_book();
  const auto lines = [&](const std::string& pack, std::size_t which) {
    return year_of(book, 2026, {pack}).returns.at(which).lines;
  };
  const auto tonnes = lines("eu-generic", 0);
  ASSERT_EQ(tonnes.size(), 2U);
  EXPECT_EQ(tonnes[0].mass, 9'187'000);
  EXPECT_EQ(tonnes[0].thousandths, 9) << "0.009187 t";
  const auto pounds = lines("us-federal", 1);
  ASSERT_EQ(pounds.size(), 1U) << "neither stream has a waste number";
  EXPECT_EQ(pounds[0].code, "");
  EXPECT_EQ(pounds[0].mass, 10'437'000);
  EXPECT_EQ(pounds[0].thousandths, 23'010);
  book.put("stream", "oil", {code("waste_type", "used-oil")});
  const auto without_oil = lines("us-federal", 1);
  ASSERT_EQ(without_oil.size(), 1U);
  EXPECT_EQ(without_oil[0].mass, 1'250'000) << "used oil is left out";
}

TEST(WasteYear, HasNoReturnMassWithoutADensity) {
  BookUnderTest book = october_book();
  book.put("stream", "water",
           {code("counted_by", "volume"), code("hazardous", "yes"), text("low_code", "13 05 07"),
            text("name", "Oily water")});
  book.put("container", "t1", {code("counts_waste", "yes"), {"stream", entries::Id{"water"}}});
  book.drain("t1", 1'000'000, "2026-10-05T10:00:00+02:00");
  const auto figures = year_of(book, 2026, {"eu-generic"});
  const auto& lines = figures.returns[0].lines;
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[1].code, "13 05 07");
  EXPECT_FALSE(lines[1].mass.has_value());
  EXPECT_EQ(table(year_document(figures), "return-record-arisen").rows[1].cells[3].text, "–");
  EXPECT_FALSE(figures.hazardous.arisen.has_value());
}

TEST(WasteYear, SaysThatItReplacesNoReturn) {
  std::string all;
  for (const auto& paragraph :
       blocks_of<document::Paragraph>(year_document(year_of(october_book()))))
    all += paragraph.text + "\n";
  EXPECT_THAT(all, HasSubstr("replaces no statutory return, consignment note or manifest"));
  EXPECT_THAT(all, HasSubstr("No rule pack in force tells what returns ask for."));
}

TEST(WasteYear, PrintsMonthsThatAddUpAndTheirBars) {
  const document::Document document = year_document(year_of(october_book()));
  const Table oil = table(document, "months-oil");
  ASSERT_EQ(oil.rows.size(), 12U);
  EXPECT_EQ(oil.rows.back().kind, RowKind::kTotal);
  EXPECT_THAT(texts(oil.rows.back()),
              ElementsAre("All months", "", "10.5595", "5.000", "0.000", "", "9.187", "4.350"));
  const Table rags = table(document, "months-rags");
  EXPECT_EQ(rags.columns.size(), 6U) << "counted by mass: no second masses";
  const auto charts = blocks_of<document::BarChart>(document);
  ASSERT_EQ(charts.size(), 2U);
  EXPECT_EQ(charts[0].value_label, "Arising, L");
  ASSERT_EQ(charts[0].bars.size(), 11U);
  EXPECT_EQ(charts[0].bars[8].value, 10'000);
  EXPECT_EQ(charts[0].bars[9].value, 553) << "0.5525 L, rounded to the thousandth";
  EXPECT_EQ(charts[0].bars[9].value_text, "0.5525") << "as in the table";
}

TEST(WasteYear, GivesTheSameFiguresToMachines) {
  const WasteYearFigures figures = year_of(october_book(), 2026, {"england"});
  const base::Json json = waste_year_json(figures);
  const base::Json& oil = json.find("streams")->array()->at(0);
  EXPECT_EQ(oil.find("arisen")->number()->token, "10559.5");
  EXPECT_EQ(oil.find("months")->array()->at(9).find("arisen_kg")->number()->token, "0.481");
  EXPECT_EQ(json.find("consignments")->array()->size(), 1U);
  EXPECT_EQ(json.find("returns")->array()->at(0).find("lines")->array()->size(), 8U);
}

}  // namespace
}  // namespace benchwarden::reports
