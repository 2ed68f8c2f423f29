#include "reports/cylinder_history.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/cylinder_history_document.h"
#include "reports/fixture.h"

namespace benchwarden::reports {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Written check(const std::string& occurred_at, std::int64_t bar_thousandths,
              entries::Outcome outcome = entries::Outcome::kRecorded) {
  return {"cylinder-check",
          occurred_at,
          {number("ambient_temperature_c", "c", 18'500),
           {"cylinder", entries::Id{"n1"}},
           number("gauge_pressure_bar", "bar", bar_thousandths),
           code("leak_test", "passed"),
           text("note", "bay 2"),
           code("secured", "yes")},
          {entries::Checks{"cylinder", "n1", outcome}}};
}

BookUnderTest cylinder_book() {
  BookUnderTest book = workshop_book();
  book.put(
      "cylinder", "n1",
      {code("gas", "nitrogen"), text("last_test_month", "2021-04"), text("name", "Bench cylinder"),
       text("serial_number", "SN-88213"), number("water_capacity_l", "l", 50'000),
       number("working_pressure_bar", "bar", 200'000)});                        // 9
  book.enter(check("2026-10-09T08:00:00+02:00", 180'000));                      // 10
  book.enter(check("2026-10-02T08:00:00+02:00", 195'500));                      // 11, late
  const auto slip = book.enter(check("2026-10-16T08:00:00+02:00", 1'700'000));  // 12
  book.amend({slip,
              "2026-10-16T08:05:00+02:00",
              "one nought too many",  // 13
              {number("gauge_pressure_bar", "bar", 170'000)},
              {entries::Checks{"cylinder", "n1", entries::Outcome::kRecorded}}});
  const auto wrong = book.enter(check("2026-10-20T08:00:00+02:00", 90'000));   // 14
  book.amend({wrong, "2026-10-20T08:01:00+02:00", "other cylinder", {}, {}});  // 15
  return book;
}

CylinderHistoryFigures history_of(const BookUnderTest& book, std::vector<RecordedEntry> checks,
                                  std::string_view as_of = "2026-11-05T09:00:00+01:00") {
  FormTexts forms;
  forms.titles = {{"cylinder-check/gauge_pressure_bar", "Cylinder pressure (gauge)"},
                  {"cylinder-check/leak_test/passed", "No leak found"},
                  {"cylinder-check/secured", "Secured"},
                  {"cylinder-check/secured/yes", "Yes"},
                  {"register-change/act/added", "Added"},
                  {"register-change/serial_number", "Serial number"}};
  std::vector<RecordedEntry> changes;
  for (const RecordedEntry& recorded : book.entries_of("register-change")) {
    const auto* thing = entries::find_field_as<entries::Id>(recorded.effective, "thing");
    if (thing != nullptr && thing->slug == "n1") changes.push_back(recorded);
  }
  return {make_history({book.state(),
                        "cylinder",
                        "n1",
                        basis_at(as_of),
                        std::move(checks),
                        changes,
                        {{"p1", "Bench A"}, {"p2", "Office"}},
                        forms}),
          {}};
}

CylinderHistoryFigures history_of(const BookUnderTest& book) {
  return history_of(book, book.entries_of("cylinder-check"));
}

TEST(CylinderHistory, HasEveryCheckInOrderOfTimeStruckOnesToo) {
  const CylinderHistoryFigures figures = history_of(cylinder_book());
  std::vector<std::uint64_t> seqs;
  for (const HistoryLine& line : figures.history.checks) seqs.push_back(line.entry.seq);
  EXPECT_THAT(seqs, ElementsAre(11, 10, 12, 14));
  EXPECT_TRUE(figures.history.checks.back().struck);
  EXPECT_FALSE(figures.history.checks.front().struck);
}

TEST(CylinderHistory, GivesGaugePressureInBarAndPsi) {
  const auto document = cylinder_history_document(history_of(cylinder_book()), project_data());
  const document::Table checks = table(document, "checks");
  ASSERT_EQ(checks.rows.size(), 4U);
  // 195.5 bar = 2 835.49… psi; 170 bar = 2 465.64… psi.
  EXPECT_THAT(texts(checks.rows[0]),
              ElementsAre("11", "2026-10-02\u00A008:00", "195.5", "2\u202F835", "18.5",
                          "No leak found", "–", "Bench A"));
  EXPECT_EQ(checks.rows[2].cells[2].text, "170.0");
  EXPECT_EQ(checks.rows[2].cells[3].raw, "2466");
  EXPECT_EQ(checks.columns[2].unit, "bar");
  EXPECT_EQ(checks.columns[3].unit, "psi");
}

TEST(CylinderHistory, ConvertsToWholePsiTiesAwayFromZero) {
  EXPECT_EQ(whole_psi(measured("bar", 200'000)), 2'901);  // 2 900.75…
  EXPECT_EQ(whole_psi(measured("bar", 199'948)), 2'900);  // what 2 900 psi is stored as
  EXPECT_EQ(whole_psi(measured("bar", 0)), 0);
  EXPECT_FALSE(whole_psi(measured("bar", base::kDecimalThousandthsMax)).has_value());
}

TEST(CylinderHistory, ShowsItemsAndCorrectionsBelowTheCheck) {
  const auto document = cylinder_history_document(history_of(cylinder_book()), project_data());
  const document::Table checks = table(document, "checks");
  EXPECT_THAT(checks.rows[0].details, ElementsAre("Secured: Yes; note: bay 2"));
  EXPECT_THAT(
      checks.rows[2].details,
      ElementsAre(
          "Secured: Yes; note: bay 2",
          "Corrected by entry 13 (2026-10-16\u00A008:05, Office): Cylinder pressure (gauge) "
          "1\u202F700\u00A0bar → 170\u00A0bar. Reason: one nought too many"));
  EXPECT_THAT(
      checks.rows[3].details,
      ElementsAre("Secured: Yes; note: bay 2",
                  "Struck out by entry 15 (2026-10-20\u00A008:01, Office). Reason: other cylinder",
                  "Struck out: stands here for the record only."));
}

TEST(CylinderHistory, SaysInWhichUnitAReadingWasTyped) {
  const BookUnderTest book = cylinder_book();
  std::vector<RecordedEntry> checks = book.entries_of("cylinder-check");
  checks[0].entry.content.as_read = {{"gauge_pressure_bar", base::Decimal{2'610'000}, "psi"}};
  checks[2].entry.content.as_read = {{"gauge_pressure_bar", base::Decimal{24'656'000}, "psi"}};
  const CylinderHistoryFigures figures = history_of(book, checks);
  EXPECT_EQ(figures.history.checks[1].typed.size(), 1U);
  EXPECT_THAT(figures.history.checks[2].typed, IsEmpty());  // the correction took its place
  const auto document = cylinder_history_document(figures, project_data());
  EXPECT_THAT(table(document, "checks").rows[1].details.at(1),
              "Cylinder pressure (gauge) typed as 2\u202F610\u00A0psi");
}

TEST(CylinderHistory, KeepsAFieldThatACorrectionClearedInTheRecord) {
  const BookUnderTest book = cylinder_book();
  std::vector<RecordedEntry> checks = book.entries_of("cylinder-check");
  entries::Entry correction = checks[2].corrections.at(0);
  correction.content.fields = {
      code("action", "corrected"),
      {"cleared", entries::List{{{{"cleared_field", entries::Text{"note"}}}}}}};
  checks[2].corrections = {correction};
  const CylinderHistoryFigures figures = history_of(book, checks);
  const CorrectionFigures& cleared = figures.history.checks[2].corrections.at(0);
  ASSERT_EQ(cleared.changes.size(), 1U);
  EXPECT_EQ(cleared.changes[0].field, "note");
  EXPECT_EQ(cleared.changes[0].before, entries::FieldValue(entries::Text{"bay 2"}));
  EXPECT_FALSE(cleared.changes[0].after.has_value());
  const auto document = cylinder_history_document(figures, project_data());
  EXPECT_THAT(table(document, "checks").rows[2].details.at(1), HasSubstr("note bay 2 → not given"));
}

TEST(CylinderHistory, PrintsTheRegisterInTheOrderOfItsDefinition) {
  const auto document = cylinder_history_document(history_of(cylinder_book()), project_data());
  const document::Table attributes = table(document, "register");
  std::vector<std::string> names;
  for (const document::Row& row : attributes.rows) names.push_back(row.name);
  EXPECT_THAT(names, ElementsAre("name", "serial_number", "gas", "water_capacity_l",
                                 "working_pressure_bar", "last_test_month"));
  EXPECT_THAT(texts(attributes.rows[1]), ElementsAre("Serial number", "SN-88213"));
  EXPECT_THAT(texts(attributes.rows[3]), ElementsAre("water_capacity_l", "50\u00A0L"));
  const document::Table changes = table(document, "changes");
  ASSERT_EQ(changes.rows.size(), 1U);
  EXPECT_THAT(texts(changes.rows[0]),
              ElementsAre("9", "2026-01-05\u00A008:00", "Added", "Bench A"));
  EXPECT_THAT(changes.rows[0].details.at(0), HasSubstr("Serial number: SN-88213; gas: nitrogen"));
}

TEST(CylinderHistory, PassesOverWhatHappenedAfterTheTimeAskedFor) {
  const BookUnderTest book = cylinder_book();
  const auto figures =
      history_of(book, book.entries_of("cylinder-check"), "2026-10-09T08:00:00+02:00");
  EXPECT_EQ(figures.history.checks.size(), 2U);
}

TEST(CylinderHistory, HasTheSameFiguresInTheJson) {
  const CylinderHistoryFigures figures = history_of(cylinder_book());
  const base::Json json = cylinder_history_json(figures);
  const document::Table checks =
      table(cylinder_history_document(figures, project_data()), "checks");
  const base::JsonArray& lines = *json.find("checks")->array();
  ASSERT_EQ(lines.size(), checks.rows.size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    EXPECT_EQ(std::to_string(*lines[i].find("entry")->integer()), checks.rows[i].cells[0].raw);
    EXPECT_EQ(std::to_string(*lines[i].find("gauge_pressure_psi")->integer()),
              checks.rows[i].cells[3].raw);
    const base::Json& bar = *lines[i].find("fields")->find("gauge_pressure_bar");
    EXPECT_EQ(base::parse_decimal(bar.number()->token)->thousandths,
              base::parse_decimal(*checks.rows[i].cells[2].raw)->thousandths);
  }
  EXPECT_EQ(base::write_json(*lines[2].find("corrections")->array()->front().find("changes")),
            R"([{"field":"gauge_pressure_bar","before":1700,"after":170}])");
  EXPECT_EQ(*json.find("register")->find("attributes")->find("serial_number")->string(),
            "SN-88213");
}

TEST(CylinderHistory, OfAnUnknownCylinderSaysSo) {
  const CylinderHistoryFigures figures = history_of(workshop_book());
  EXPECT_FALSE(figures.history.known);
  const auto document = cylinder_history_document(figures, project_data());
  EXPECT_EQ(document.subject_lines.front(), "n1 is not in the register.");
  EXPECT_EQ(table(document, "checks").when_empty, "No check is recorded.");
  EXPECT_TRUE(cylinder_history_json(figures).find("register")->is_null());
}

}  // namespace
}  // namespace benchwarden::reports
