#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "reports/fixture.h"
#include "reports/waste_month_document.h"

// How a reader gets from totals to entries, and what the first page says.

namespace benchwarden::reports {
namespace {

using document::Document;
using document::RowKind;
using document::Table;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

document::Row row_of_entry(const Table& table, const std::string& name) {
  for (const document::Row& row : table.rows) {
    if (row.name == name) return row;
  }
  ADD_FAILURE() << "no row " << name;
  return {};
}

/// Of a row of entries, in smallest units: plain digits with places.
std::int64_t change_told(const document::Row& row) {
  const std::string number = row.cells.at(4).raw.value();
  const std::size_t point = number.find('.');
  std::string places = number.substr(point + 1);
  places.resize(6, '0');
  return std::stoll(number.substr(0, point) + places);
}

TEST(WasteMonthEntries, ListsTheEntriesBehindTheTotalsContainerByContainer) {
  const Document document = october();
  const Table entries = table(document, "entries-w1");
  ASSERT_EQ(entries.rows.size(), 7U);
  EXPECT_EQ(entries.columns[4].unit, "L");
  EXPECT_THAT(texts(entries.rows[0]), ElementsAre("10", "2026-10-03\u00A009:00", "Oil drained",
                                                  "added", "0.062", "Bench A"));
  EXPECT_THAT(entries.rows[0].details, ElementsAre(testing::StartsWith("Corrected by entry 11;")));
  EXPECT_EQ(entries.rows[0].entry, 10U);
  EXPECT_EQ(row_of_entry(entries, "17 w1").cells.back().text, "p3 (without a PIN)");
  const document::Row struck = row_of_entry(entries, "15 w1");
  EXPECT_EQ(struck.cells[4].text, "0.000");
  EXPECT_THAT(struck.details, ElementsAre("Struck out by entry 16: not counted."));
  EXPECT_EQ(row_of_entry(entries, "18 w1").cells[4].text, "") << "a reading changes nothing";
  EXPECT_THAT(table(document, "entries-w2").rows.at(2).details,
              ElementsAre("Recorded 2026-11-02\u00A008:10, after the month."));
  EXPECT_EQ(table(document, "entries-drum").columns[4].unit, "kg");
}

/// Holds the change at the end of each container's entries against its balance.
int expect_changes_of_balance(const WasteMonthFigures& figures) {
  const Document document = waste_month_document(figures, project_data());
  int totals = 0;
  for (const ContainerFigures& container : figures.containers) {
    const auto tables = blocks_of<Table>(document);
    const auto found = std::find_if(tables.begin(), tables.end(), [&](const Table& one) {
      return one.name == "entries-" + container.id;
    });
    const std::int64_t change = container.movement.closing - container.movement.opening;
    if (found == tables.end()) {
      EXPECT_EQ(change, 0) << container.id;
      continue;
    }
    EXPECT_EQ(found->rows.back().kind, RowKind::kTotal);
    EXPECT_EQ(change_told(found->rows.back()), change) << container.id;
    ++totals;
  }
  return totals;
}

TEST(WasteMonthEntries, EndsEachContainersEntriesWithTheChangeOfItsBalance) {
  EXPECT_EQ(expect_changes_of_balance(figures_of(october_book(), kOctober)), 4);
}

TEST(WasteMonthEntries, KeepsThatChangeWhateverIsMovedEmptiedAndCorrected) {
  BookUnderTest book = october_book();
  const auto moved = book.enter({"transfer",
                                 "2026-10-29T08:00:00+01:00",
                                 {},
                                 {entries::Moves{"w2", "w1", {}}}});  // all of it
  const auto late = book.drain("w2", 80'000, "2026-10-28T23:00:00+01:00");
  book.enter({"container-change",
              "2026-10-30T08:00:00+01:00",
              {},
              {entries::Handles{"w1", entries::ContainerAct::kEmptied}}});
  book.amend({late,
              "2026-11-03T08:00:00+01:00",
              "slip",
              {number("volume_ml", "ml", 90'000)},
              {entries::Adds{"w2", volume_ml(90'000)}}});
  EXPECT_EQ(expect_changes_of_balance(figures_of(book, kOctober)), 4);
  book.amend({moved, "2026-11-04T08:00:00+01:00", "not moved", {}, {}});
  EXPECT_EQ(expect_changes_of_balance(figures_of(book, kOctober)), 4);
}

TEST(WasteMonthEntries, LeadsFromTotalsToRowsAndFromRowsToEntries) {
  const Document document = october();
  std::set<std::string> anchors;
  const auto add = [&](const std::string& anchor) {
    EXPECT_TRUE(anchor.empty() || anchors.insert(anchor).second) << anchor << " twice";
  };
  for (const auto& heading : blocks_of<document::Heading>(document)) add(heading.anchor);
  std::vector<std::string> links;
  for (const auto& figures : blocks_of<document::KeyFigures>(document)) {
    for (const auto& figure : figures.figures) links.push_back(figure.link);
  }
  for (const Table& each : blocks_of<Table>(document)) {
    for (const document::Row& row : each.rows) {
      add(row.anchor);
      for (const document::Cell& cell : row.cells) links.push_back(cell.link);
    }
  }
  std::erase(links, "");
  for (const std::string& link : links) EXPECT_TRUE(anchors.contains(link)) << link;
  EXPECT_THAT(links, Contains("streams"));
  EXPECT_THAT(links, Contains("stream-oil"));
  EXPECT_THAT(links, Contains("entries-w1"));
  EXPECT_THAT(links, Contains("entry-18")) << "the reading of the differences";
}

TEST(WasteMonthEntries, AnswersFirstWhatIsLookedForFirst) {
  const BookUnderTest book = october_book();
  const Outlook outlook{{{"c6", {2026, 12, 12}, 77}}, 2, 3};
  const WasteMonthFigures figures = make_waste_month({book.state(),
                                                      kOctober,
                                                      basis_at("2026-11-05T09:00:00+01:00"),
                                                      book.entries(),
                                                      {},
                                                      {},
                                                      std::nullopt,
                                                      outlook});
  const Document document = waste_month_document(figures, project_data());
  const std::string first = blocks_of<document::Paragraph>(document).at(0).text;
  EXPECT_THAT(first, HasSubstr("Used damper oil (13 01 10*): arising 0.5525\u00A0L "
                               "(0.481\u00A0kg), collected 5\u00A0L (4.35\u00A0kg)"));
  EXPECT_THAT(first, HasSubstr("Next collection planned: c6 on 2026-12-12 (entry 77)."));
  EXPECT_THAT(first, HasSubstr("2 over a limit, 3 due."));
  EXPECT_THAT(first, HasSubstr(project_data().definitions.get("findings-list").title));
  const base::Json json = waste_month_json(figures);
  EXPECT_EQ(*json.find("outlook")->find("next_collection")->find("day")->string(), "2026-12-12");
}

}  // namespace
}  // namespace benchwarden::reports
