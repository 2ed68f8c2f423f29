#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "document/entries_told.h"
#include "print/html.h"
#include "reports/audit_pack_document.h"
#include "reports/fixture.h"
#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::IsSupersetOf;
using testing::Not;

entries::Fields issue_fields() {
  return {number("book_size", "1", 24'000), code("paper", "a4"), text("month", "2026-09"),
          text("report", "waste-month"), text("report_digest", "abc123")};
}

/// October's book, a carrier entered and a report issued in it.
BookUnderTest book_with_issue() {
  BookUnderTest book = october_book();
  book.put("carrier", "k2", {text("name", "Harbour Haul")}, "2026-10-29T08:00:00+01:00");
  book.enter({"report-issued", "2026-10-30T08:00:00+01:00", issue_fields(), {}});
  return book;
}

AuditPackFigures pack_of(const BookUnderTest& book, base::CivilDate first, base::CivilDate last,
                         const std::set<std::uint64_t>& told = {}) {
  return make_audit_pack({book.state(),
                          first,
                          last,
                          basis_at("2026-11-05T09:00:00+01:00"),
                          book.entries(),
                          told,
                          {{"p1", "Bench A"}},
                          {}});
}
AuditPackFigures october_pack() {
  return pack_of(book_with_issue(), {2026, 10, 1}, {2026, 10, 31});
}

TEST(AuditPack, TellsChangesCorrectionsAndIssuedReportsOfItsDays) {
  const AuditPackFigures figures = october_pack();
  ASSERT_EQ(figures.changes.size(), 1U);
  EXPECT_EQ(figures.corrections.size(), 2U) << "the slip, and what was undone at once";
  ASSERT_EQ(figures.issued.size(), 1U);
  EXPECT_EQ(figures.issued[0].report, "waste-month");
  EXPECT_EQ(figures.issued[0].digest, "abc123");
  EXPECT_EQ(figures.issued[0].book_size, 24U);
  ASSERT_EQ(figures.issued[0].about.size(), 1U);
  EXPECT_EQ(figures.issued[0].about[0].name, "month");
}

TEST(AuditPack, CountsACorrectionToTheDayOnWhichItWasMadeItself) {
  // The slip is of the 3rd, its correction of the 4th.
  const BookUnderTest book = book_with_issue();
  EXPECT_THAT(pack_of(book, {2026, 10, 3}, {2026, 10, 3}).corrections, IsEmpty());
  EXPECT_EQ(pack_of(book, {2026, 10, 4}, {2026, 10, 4}).corrections.size(), 1U);
  EXPECT_THAT(pack_of(book, {2026, 9, 1}, {2026, 9, 30}).changes, IsEmpty());
}

TEST(AuditPack, HasEveryEntryOfItsDaysThatNoReportInItHas) {
  BookUnderTest book = book_with_issue();
  book.enter({"walk-round", "2026-10-31T17:00:00+01:00", {code("exits_clear", "no")}, {}});
  const std::uint64_t walk = book.entries().back().entry.seq;
  const std::set<std::uint64_t> told =
      document::entries_told(waste_month_document(figures_of(book, kOctober), project_data()));
  EXPECT_GT(told.size(), 5U);
  const AuditPackFigures figures = pack_of(book, {2026, 10, 1}, {2026, 10, 31}, told);
  std::vector<std::uint64_t> others;
  for (const HistoryLine& line : figures.others) others.push_back(line.entry.seq);
  EXPECT_THAT(others, Contains(walk));
  for (const std::uint64_t seq : others) EXPECT_FALSE(told.contains(seq));
  const auto printed = table(audit_pack_document(figures, {}, project_data()), "others");
  ASSERT_EQ(printed.rows.size(), others.size());
  EXPECT_EQ(printed.rows.back().entry, walk);
  EXPECT_THAT(printed.rows.back().details, Contains(HasSubstr("exits_clear: no")));
}

TEST(AuditPack, SaysWhenItsDaysAreNotOver) {
  const auto subject = [](base::CivilDate last) {
    return audit_pack_document(pack_of(book_with_issue(), {2026, 10, 1}, last), {}, project_data())
        .subject_lines;
  };
  EXPECT_THAT(subject({2026, 12, 31}), Contains(HasSubstr("entries may still come")));
  EXPECT_THAT(subject({2026, 10, 31}), Not(Contains(HasSubstr("entries may still come"))));
}

document::Document bound_pack() {
  const AuditPackFigures figures = october_pack();
  std::vector<PackPart> parts;
  for (const base::CivilMonth month : {base::CivilMonth{2026, 9}, kOctober}) {
    parts.push_back({"waste-month/" + base::format_month(month),
                     waste_month_document(figures_of(book_with_issue(), month), project_data())});
  }
  return audit_pack_document(figures, std::move(parts), project_data());
}

TEST(AuditPack, BindsItsPartsBetweenContentsAndItsOwnTablesAndEndsWithTheIndex) {
  const document::Document document = bound_pack();
  std::vector<std::string> chapters;
  for (const auto& heading : blocks_of<document::Heading>(document)) {
    if (heading.level == 1) chapters.push_back(heading.text);
  }
  EXPECT_THAT(chapters,
              ElementsAre("At a glance", "Monthly waste report: September 2026",
                          "Monthly waste report: October 2026", "Register changes",
                          "Corrections and strike-outs", "Reports issued", "Further entries",
                          "Signature", "Cautions", "How the figures are made"));
  EXPECT_EQ(blocks_of<document::Contents>(document).size(), 1U);
  EXPECT_TRUE(std::holds_alternative<document::EntryIndex>(document.sections.back().blocks.back()));
  EXPECT_EQ(blocks_of<document::SignatureLine>(document).size(), 1U);
  EXPECT_EQ(blocks_of<document::CautionBox>(document).size(), 3U) << "each caution once";
}

TEST(AuditPack, KeepsEveryRowOfItsParts) {
  const document::Document document = bound_pack();
  const document::Document alone =
      waste_month_document(figures_of(book_with_issue(), kOctober), project_data());
  for (const document::Table& table_alone : blocks_of<document::Table>(alone)) {
    SCOPED_TRACE(table_alone.name);
    const auto bound = table(document, "waste-month/2026-10/" + table_alone.name);
    ASSERT_EQ(bound.rows.size(), table_alone.rows.size());
    for (std::size_t i = 0; i < bound.rows.size(); ++i) {
      EXPECT_EQ(texts(bound.rows[i]), texts(table_alone.rows[i]));
    }
  }
}

TEST(AuditPack, NamesTheEntryOfEveryRowThatIsAboutOne) {
  std::size_t rows = 0;
  for (const document::Table& one : blocks_of<document::Table>(bound_pack())) {
    for (std::size_t column = 0; column < one.columns.size(); ++column) {
      if (one.columns[column].name != "entry") continue;
      for (const document::Row& row : one.rows) {
        if (row.kind != document::RowKind::kNormal) continue;
        ++rows;
        EXPECT_EQ(std::to_string(row.entry), row.cells[column].raw.value_or("")) << one.name;
      }
    }
  }
  EXPECT_GT(rows, 10U);
}

TEST(AuditPack, GivesForMachinesWhatItsPartsGive) {
  std::vector<PackedReport> parts;
  parts.push_back(
      {"waste-month/2026-10", waste_month_json(figures_of(book_with_issue(), kOctober))});
  const base::Json json = audit_pack_json(october_pack(), std::move(parts));
  EXPECT_EQ(*json.find("from")->string(), "2026-10-01");
  EXPECT_EQ(json.find("corrections")->array()->size(), 2U);
  EXPECT_EQ(*json.find("issued")->array()->at(0).find("digest")->string(), "abc123");
  const base::Json& part = json.find("parts")->array()->at(0);
  EXPECT_EQ(*part.find("figures")->find("month")->string(), "2026-10");
}

TEST(AuditPack, OfAnEmptyBookPrintsToo) {
  const document::Document document = audit_pack_document(
      pack_of(BookUnderTest{}, {2026, 10, 1}, {2026, 10, 31}), {}, project_data());
  EXPECT_THAT(print::to_html(document), HasSubstr("No report was issued on these days."));
}

}  // namespace
}  // namespace benchwarden::reports
