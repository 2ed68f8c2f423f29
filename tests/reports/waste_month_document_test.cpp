#include "reports/waste_month_document.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <stdexcept>

#include "reports/fixture.h"

namespace benchwarden::reports {
namespace {

using document::Document;
using document::RowKind;
using document::Table;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

std::string raw(const Table& table, const document::Row& row, const std::string& column) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].name == column) return row.cells[i].raw.value_or(row.cells[i].text);
  }
  ADD_FAILURE() << "no column " << column;
  return "";
}

/// Of plain digits with places: in millionths.
std::int64_t millionths(const std::string& number) {
  if (number.empty()) return 0;
  const std::size_t point = number.find('.');
  EXPECT_NE(point, std::string::npos) << number;
  std::string places = number.substr(point + 1);
  places.resize(6, '0');
  return std::stoll(number.substr(0, point) + places);
}

const base::Json& item(const base::Json& array, const std::string& name, const std::string& id) {
  for (const base::Json& each : *array.array()) {
    if (*each.find(name)->string() == id) return each;
  }
  throw std::runtime_error("no " + id);
}

/// Of a JSON number in thousands of the smallest unit, e.g. millilitres: in smallest units.
std::int64_t smallest(const base::Json& number) {
  return base::parse_decimal(number.number()->token)->thousandths;
}

TEST(WasteMonthDocument, SaysWhichSiteMonthAndZoneOnTop) {
  const Document document = october();
  EXPECT_EQ(document.title, "Monthly waste report");
  EXPECT_EQ(document.report_name, "waste-month");
  EXPECT_THAT(
      document.subject_lines,
      ElementsAre(
          "Saltmarsh Damper Works, 4 Quay Lane, Saltmarsh Haven", "Site number SM-0417",
          "October 2026: 2026-10-01 to 2026-10-31, days of the time zone "
          "Europe/Berlin",
          "Book of 24 entries, tree head abababababababab (a check number over all of them)",
          "Preview, not issued and not signed"));
  EXPECT_EQ(document.furniture.site, "Saltmarsh Damper Works");
  EXPECT_EQ(document.furniture.period, "October 2026");
  EXPECT_EQ(document.furniture.made_at, "last entry recorded 2026-11-05T09:00:00+01:00");
  EXPECT_EQ(document.furniture.book_size, "book of 24 entries");
  EXPECT_EQ(document.furniture.tree_head, "tree head abababababababab");
  EXPECT_EQ(document.furniture.page_of, "page {page} of {pages}");
}

TEST(WasteMonthDocument, PrintsAStreamWithCodeHazardAndMass) {
  const Table streams = table(october(), "streams");
  ASSERT_EQ(streams.rows.size(), 3U);
  EXPECT_THAT(texts(streams.rows[0]), ElementsAre("Used damper oil", "13 01 10*", "yes", "0.481",
                                                  "0.5525", "4.350", "4.831"));
  EXPECT_THAT(texts(streams.rows[1]),
              ElementsAre("Oily rags", "15 02 02*", "yes", "1.250", "–", "0.000", "1.250"));
  EXPECT_EQ(streams.rows[2].kind, RowKind::kTotal);
  EXPECT_THAT(texts(streams.rows[2]),
              ElementsAre("Hazardous waste in all", "", "", "1.731", "", "4.350", "6.081"));
  EXPECT_EQ(streams.columns[3].unit, "kg");
  EXPECT_EQ(streams.columns[4].unit, "L");
}

TEST(WasteMonthDocument, SaysWhereADensityComesFrom) {
  std::string all;
  for (const auto& paragraph : blocks_of<document::Paragraph>(october()))
    all += paragraph.text + "\n";
  EXPECT_THAT(all, HasSubstr("Used damper oil: mass from volume at 870\u00A0kg/m³. Density from: "
                             "maker's data sheet."));
  EXPECT_THAT(all, HasSubstr("rounded to 0.001 kg, halves away from zero"));
  EXPECT_THAT(all, HasSubstr("Tree head of the book of 24 entries: " +
                             base::to_hex(figures_of(october_book(), kOctober).frame.book_root)));
}

TEST(WasteMonthDocument, PrintsTheEquationOfEachContainerInItsUnit) {
  const Document document = october();
  const Table litres = table(document, "balance-volume");
  EXPECT_EQ(litres.columns[1].unit, "L");
  ASSERT_EQ(litres.rows.size(), 4U);
  EXPECT_EQ(litres.rows[0].kind, RowKind::kNote);
  EXPECT_EQ(litres.rows[0].cells[0].text, "Used damper oil (13 01 10*)");
  EXPECT_THAT(texts(litres.rows[1]), ElementsAre("w1, Oil drum", "10.000", "0.8200", "0.200",
                                                 "0.000", "5.000", "0.000", "−0.658", "5.3620"));
  EXPECT_EQ(litres.rows[3].kind, RowKind::kTotal);
  const Table kilograms = table(document, "balance-mass");
  EXPECT_EQ(kilograms.columns[1].unit, "kg");
  ASSERT_EQ(kilograms.rows.size(), 4U);
  EXPECT_EQ(kilograms.rows[1].cells[0].text, "bin, Rag bin (working bin)");
}

TEST(WasteMonthDocument, KeepsTheEquationInThePrintedRows) {
  const Document document = october();
  int rows = 0;
  for (const char* name : {"balance-volume", "balance-mass"}) {
    const Table balance = table(document, name);
    for (const document::Row& row : balance.rows) {
      if (row.kind == RowKind::kNote) continue;
      const auto term = [&](const char* column) { return millionths(raw(balance, row, column)); };
      EXPECT_EQ(term("opening") + term("added") + term("moved_in") - term("moved_out") -
                    term("taken") - term("emptied") + term("corrections"),
                term("closing"))
          << row.name;
      ++rows;
    }
  }
  EXPECT_EQ(rows, 6);
}

TEST(WasteMonthDocument, PrintsTotalsThatAreTheSumsOfThePrintedRows) {
  const Document document = october();
  int totals = 0;
  for (const Table& each : blocks_of<Table>(document)) {
    std::map<std::string, std::int64_t> sums;
    for (const document::Row& row : each.rows) {
      if (row.kind == RowKind::kNote) sums.clear();
      if (row.kind == RowKind::kNote) continue;
      for (std::size_t i = 0; i < each.columns.size(); ++i) {
        if (each.columns[i].align != document::Align::kDecimal) continue;
        const std::int64_t value = millionths(row.cells[i].raw.value_or(row.cells[i].text));
        if (row.kind == RowKind::kNormal) sums[each.columns[i].name] += value;
        if (row.kind != RowKind::kTotal || row.cells[i].text.empty()) continue;
        EXPECT_EQ(value, sums[each.columns[i].name]) << each.name << " " << each.columns[i].name;
        ++totals;
      }
    }
  }
  EXPECT_EQ(totals, 3 + 2 * 8 + 4) << "streams, two balances, the entries of four containers";
}

TEST(WasteMonthDocument, NamesADocumentThatHasNotComeBack) {
  const Table collections = table(october(), "collections");
  ASSERT_EQ(collections.rows.size(), 1U);
  EXPECT_THAT(texts(collections.rows[0]),
              ElementsAre("2026-10-28", "CN-17", "k1, Harbour Haulage", "w1, Oil drum", "5.000",
                          "4.350", "–", "not yet", "20"));
}

TEST(WasteMonthDocument, KeepsAnOpenDocumentOfAnEarlierMonthInABox) {
  const auto november = figures_of(october_book(), {2026, 11}, "2026-12-02T09:00:00+01:00");
  const auto boxes = blocks_of<document::NoteBox>(waste_month_document(november, project_data()));
  ASSERT_EQ(boxes.size(), 2U);
  EXPECT_EQ(boxes[0].title, "Documents of earlier months not returned");
  EXPECT_THAT(boxes[0].lines, ElementsAre("Collection c1 of 2026-10-28, document CN-17: document "
                                          "not returned"));
}

TEST(WasteMonthDocument, StatesADifferenceWithoutAVerdict) {
  const Document document = october();
  const Table differences = table(document, "differences-volume");
  ASSERT_EQ(differences.rows.size(), 1U);
  EXPECT_THAT(texts(differences.rows[0]), ElementsAre("w1, Oil drum", "2026-10-20\u00A008:00", "18",
                                                      "10.400", "10.162", "0.238"));
}

TEST(WasteMonthDocument, ShowsOriginalAndCorrectedWhoWhenAndWhy) {
  const auto boxes = blocks_of<document::NoteBox>(october());
  ASSERT_EQ(boxes.size(), 1U);
  EXPECT_THAT(
      boxes[0].lines,
      ElementsAre(
          "Entry 21 (Oil drained) of 2026-10-31\u00A023:30 by Bench A was recorded "
          "after the month had ended, on 2026-11-02\u00A008:10.",
          "Entry 10 (Oil drained) of 2026-10-03\u00A009:00. "
          "Corrected by entry "
          "11 (2026-10-04\u00A008:30, Office): Volume 620\u00A0mL → 62\u00A0mL. Reason: "
          "slip of the keypad",
          "Entry 15 (Oil drained) of 2026-10-15\u00A010:00. Struck "
          "out by entry "
          "16 (2026-10-15\u00A010:00, Bench A). Reason: undone at once",
          "Entry 17 (Oil drained) of 2026-10-18\u00A012:00 names p3; no PIN confirmed that.",
          "Recorded without a PIN, by somebody else than it says: none",
          "Recorded in this month, but changing an earlier one: none",
          "Register changed after the month had ended: none", "Suspected contamination: none",
          "Moved from one waste stream into another: none", "Log below zero at the end: none",
          "Retired, and not empty at the end: none"));
}

TEST(WasteMonthDocument, SaysNoneWhereNothingIsLateCorrectedOrUnverified) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1'000'000, "2026-10-05T10:00:00+02:00");
  const Document document = waste_month_document(figures_of(book, kOctober), project_data());
  EXPECT_THAT(
      blocks_of<document::NoteBox>(document).at(0).lines,
      ElementsAre("Recorded after the month had ended: none", "Corrected or struck out: none",
                  "Recorded without a PIN and not confirmed since: none",
                  "Recorded without a PIN, by somebody else than it says: none",
                  "Recorded in this month, but changing an earlier one: none",
                  "Register changed after the month had ended: none",
                  "Suspected contamination: none", "Moved from one waste stream into another: none",
                  "Log below zero at the end: none", "Retired, and not empty at the end: none"));
}

TEST(WasteMonthDocument, SaysWhatAlteredTheRegisterAfterwards) {
  BookUnderTest book = workshop_book();
  const entries::Fields attributes{number("density_kg_m3", "kg_m3", 880'000)};
  entries::Fields fields = attributes;
  fields.push_back(code("act", "changed"));
  fields.push_back({"thing", entries::Id{"oil"}});
  fields.push_back(code("thing_class", "stream"));
  book.enter({"register-change",
              "2026-11-02T08:00:00+01:00",
              fields,
              {entries::Changes{"stream", "oil", entries::RegisterAct::kChanged, attributes}}});
  const Document document = waste_month_document(figures_of(book, kOctober), project_data());
  EXPECT_THAT(blocks_of<document::NoteBox>(document).at(0).lines,
              testing::Contains("Entry 9 of 2026-11-02\u00A008:00 by Bench A changed stream oil "
                                "after the month had ended: density_kg_m3."));
}

TEST(WasteMonthDocument, HasTheSameFiguresAsTheJson) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  const Document document = waste_month_document(figures, project_data());
  const base::Json json = waste_month_json(figures);
  const Table streams = table(document, "streams");
  for (std::size_t i = 0; i < 2; ++i) {
    const base::Json& stream =
        item(*json.find("streams"), "stream", raw(streams, streams.rows[i], "stream"));
    for (const char* column : {"arisen_kg", "collected_kg", "standing_kg"}) {
      EXPECT_EQ(millionths(raw(streams, streams.rows[i], column)),
                smallest(*stream.find(column)) * 1'000)
          << column;
    }
  }
  EXPECT_EQ(millionths(raw(streams, streams.rows[2], "arisen_kg")),
            smallest(*json.find("hazardous_total")->find("arisen_kg")) * 1'000);
  for (const char* name : {"balance-volume", "balance-mass"}) {
    const Table balance = table(document, name);
    for (const document::Row& row : balance.rows) {
      if (row.kind != RowKind::kNormal) continue;
      const base::Json& container =
          item(*json.find("containers"), "container", raw(balance, row, "container"));
      for (const base::JsonMember& term : *container.find("movement")->object()) {
        EXPECT_EQ(millionths(raw(balance, row, term.first)), smallest(term.second)) << term.first;
      }
    }
  }
}

TEST(WasteMonthDocument, TellsTheJsonWhatThePaperSays) {
  const base::Json json = waste_month_json(figures_of(october_book(), kOctober));
  EXPECT_EQ(*json.find("month")->string(), "2026-10");
  EXPECT_EQ(*json.find("from")->string(), "2026-10-01T00:00:00+02:00");
  EXPECT_EQ(*json.find("until")->string(), "2026-11-01T00:00:00+01:00");
  EXPECT_TRUE(*json.find("month_over")->boolean());
  EXPECT_EQ(json.find("entries")->array()->size(), 12U);
  const base::Json& collected = json.find("collected")->array()->front();
  EXPECT_EQ(*collected.find("document_number")->string(), "CN-17");
  EXPECT_TRUE(collected.find("document_returned")->is_null());
  const base::Json& correction = json.find("data_quality")->find("corrections")->array()->front();
  EXPECT_EQ(base::write_json(*correction.find("changes")),
            R"([{"field":"volume_ml","before":620,"after":62}])");
  EXPECT_TRUE(base::parse_json(base::write_json(json)).ok());
}

TEST(WasteMonthDocument, PrintsSensiblyWithoutAnyData) {
  const Document document =
      waste_month_document(figures_of(BookUnderTest{}, kOctober), project_data());
  EXPECT_EQ(document.subject_lines.front(), "Site not entered in the register");
  EXPECT_EQ(document.furniture.site, "Site not entered in the register");
  for (const Table& each : blocks_of<Table>(document)) {
    EXPECT_TRUE(each.rows.empty()) << each.name;
    EXPECT_FALSE(each.when_empty.empty()) << each.name;
  }
  EXPECT_TRUE(blocks_of<document::KeyFigures>(document).empty());
  std::string all;
  for (const auto& paragraph : blocks_of<document::Paragraph>(document))
    all += paragraph.text + "\n";
  EXPECT_THAT(all, HasSubstr("There is no container with a log."));
  EXPECT_THAT(all, HasSubstr("No container was dipped or weighed in the month."));
}

TEST(WasteMonthDocument, SaysThatTheBookEndsBeforeTheMonthDoes) {
  const Document running = waste_month_document(
      figures_of(october_book(), kOctober, "2026-10-15T12:00:00+02:00"), project_data());
  EXPECT_THAT(
      running.subject_lines,
      Contains("The book reaches to 2026-10-15\u00A012:00, before the month ends: entries may "
               "still come."));
  const Document early = waste_month_document(
      figures_of(october_book(), {2026, 12}, "2026-11-15T12:00:00+01:00"), project_data());
  EXPECT_THAT(
      early.subject_lines,
      Contains("The book reaches to 2026-11-15\u00A012:00, before the month begins: nothing is "
               "counted."));
}

TEST(WasteMonthDocument, CarriesItsCautionsSignatureAndSections) {
  const Document document = october();
  std::vector<std::string> cautions;
  for (const auto& box : blocks_of<document::CautionBox>(document)) cautions.push_back(box.title);
  EXPECT_THAT(cautions,
              ElementsAre("Used oil and skin", "Rags that heat themselves", "Flammable vapour"));
  EXPECT_EQ(blocks_of<document::SignatureLine>(document).size(), 1U);
  EXPECT_EQ(document.sections.size(),
            project_data().definitions.get("waste-month").sections.size());
}

TEST(WasteMonthDocument, PrintsTenthsOfAMillilitreAndKeepsFinerVolumesForMachines) {
  BookUnderTest book = workshop_book();
  book.drain("w1", 1'000'051, "2026-10-05T10:00:00+02:00");
  const Document document = waste_month_document(figures_of(book, kOctober), project_data());
  for (const auto& [name, row, column] :
       {std::tuple{"streams", 0, 4}, std::tuple{"balance-volume", 1, 2}}) {
    const document::Table found = table(document, name);
    const document::Cell& cell =
        found.rows[static_cast<std::size_t>(row)].cells[static_cast<std::size_t>(column)];
    EXPECT_EQ(cell.text, "1.0001");
    EXPECT_EQ(cell.raw, "1.000051");
  }
}

}  // namespace
}  // namespace benchwarden::reports
