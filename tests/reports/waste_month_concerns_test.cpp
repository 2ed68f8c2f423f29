#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/fixture.h"
#include "reports/waste_month.h"
#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

/// The lines of the quality box of October.
std::vector<std::string> quality_lines(const BookUnderTest& book) {
  const std::string& title = project_data().wording.text("quality.title");
  const auto document = waste_month_document(figures_of(book, kOctober), project_data());
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) {
      const auto* box = std::get_if<document::NoteBox>(&block);
      if (box != nullptr && box->title == title) return box->lines;
    }
  }
  ADD_FAILURE() << "there is no quality box";
  return {};
}

void add_solvent(BookUnderTest& book) {
  book.put("stream", "solvent",
           {code("counted_by", "volume"), code("hazardous", "yes"), text("low_code", "14 06 03"),
            text("name", "Spent solvent")});
  book.put("container", "s1", {text("name", "Solvent can"), {"stream", entries::Id{"solvent"}}});
}

std::uint64_t retire(BookUnderTest& book, const std::string& container,
                     const std::string& occurred_at) {
  return book.enter(
      {"register-change",
       occurred_at,
       {},
       {entries::Changes{"container", container, entries::RegisterAct::kRetired, {}}}});
}

std::uint64_t move(BookUnderTest& book, const std::string& from, const std::string& to,
                   const entries::Amount& amount, const std::string& occurred_at) {
  return book.enter({"transfer", occurred_at, {}, {entries::Moves{from, to, amount}}});
}

TEST(WasteMonthConcerns, AreNoneInAMonthWithoutThem) {
  const QualityFigures quality = figures_of(october_book(), kOctober).quality;
  EXPECT_THAT(quality.contaminated, IsEmpty());
  EXPECT_THAT(quality.between_streams, IsEmpty());
  EXPECT_THAT(quality.below_zero, IsEmpty());
  EXPECT_THAT(quality.retired_not_empty, IsEmpty());
  EXPECT_THAT(quality_lines(october_book()), Contains("Suspected contamination: none"));
}

TEST(WasteMonthConcerns, NameEachSuspectedContamination) {
  BookUnderTest book = october_book();
  const auto drained = [&](const std::string& what) {
    return book.enter({"oil-drained",
                       "2026-10-29T09:00:00+01:00",
                       {{"container", entries::Id{"w1"}},
                        code("contamination", what),
                        number("volume_ml", "ml", 620'000)},
                       {entries::Adds{"w1", volume_ml(620'000)}}});
  };
  drained("none");
  const auto undone = drained("water");
  book.amend({undone, "2026-10-29T09:01:00+01:00", "undone at once", {}, {}});
  const auto suspect = drained("chlorinated");
  const auto quality = figures_of(book, kOctober).quality;
  ASSERT_EQ(quality.contaminated.size(), 1U);
  EXPECT_EQ(quality.contaminated[0].entry.seq, suspect);
  EXPECT_EQ(quality.contaminated[0].volume, 620'000);
  EXPECT_THAT(quality_lines(book),
              Contains(HasSubstr("suspected contamination: chlorinated, 0.62\u00A0L into "
                                 "w1, Oil drum.")));
}

TEST(WasteMonthConcerns, NameEachEntryThatMovedWasteBetweenStreams) {
  BookUnderTest book = october_book();
  add_solvent(book);
  const auto poured = move(book, "w1", "s1", volume_ml(1'000), "2026-10-29T09:00:00+01:00");
  const auto undone = move(book, "w2", "s1", volume_ml(1'000), "2026-10-29T09:10:00+01:00");
  book.amend({undone, "2026-10-29T09:11:00+01:00", "undone at once", {}, {}});
  const auto emptied = book.enter(
      {"rag-bin",
       "2026-10-30T09:00:00+01:00",
       {},
       {entries::Handles{"bin", entries::ContainerAct::kEmptied}, entries::Adds{"s1", {}}}});
  const auto between = figures_of(book, kOctober).quality.between_streams;
  ASSERT_EQ(between.size(), 2U);
  EXPECT_EQ(between[0].entry.seq, poured);
  EXPECT_EQ(between[0].from_stream, "Used damper oil");
  EXPECT_EQ(between[1].entry.seq, emptied);
  EXPECT_EQ(between[1].from, "bin");
  EXPECT_EQ(between[1].to, "s1");
  EXPECT_THAT(quality_lines(book),
              Contains(HasSubstr("moved waste from w1, Oil drum (Used damper oil) into s1, "
                                 "Solvent can (Spent solvent).")));
}

TEST(WasteMonthConcerns, NameEachLogBelowZeroAtTheEnd) {
  BookUnderTest book = october_book();
  move(book, "w2", "w1", volume_ml(500'500), "2026-10-31T09:00:00+01:00");
  move(book, "bin", "drum", mass_g(1'500'000), "2026-10-31T10:00:00+01:00");
  const auto below = figures_of(book, kOctober).quality.below_zero;
  ASSERT_EQ(below.size(), 2U);
  EXPECT_EQ(below[0].container, "bin");
  EXPECT_EQ(below[1].container, "w2");
  EXPECT_EQ(below[1].amount, -310'000);
  const auto lines = quality_lines(book);
  EXPECT_THAT(lines,
              Contains(AllOf(HasSubstr("The log of w2, Oil can closes below zero"),
                             HasSubstr("\u22120.31\u00A0L"), HasSubstr("lowers the totals"))));
  EXPECT_THAT(lines, Contains(AllOf(HasSubstr("bin, Rag bin closes below zero"),
                                    Not(HasSubstr("totals")))));
}

TEST(WasteMonthConcerns, NameARetiredContainerThatIsNotEmpty) {
  BookUnderTest book = october_book();
  retire(book, "w2", "2026-10-25T09:00:00+01:00");    // what came late is not gone
  retire(book, "drum", "2026-11-02T09:00:00+01:00");  // still in use at the end of October
  book.enter({"rag-bin",
              "2026-10-24T16:00:00+02:00",
              {},
              {entries::Adds{"bin", {}}},
              "2026-11-03T16:00:00+01:00"});
  retire(book, "bin", "2026-10-26T09:00:00+01:00");
  const auto retired = figures_of(book, kOctober).quality.retired_not_empty;
  ASSERT_EQ(retired.size(), 2U);
  EXPECT_EQ(retired[0].container, "bin");
  EXPECT_EQ(retired[0].amount, 0);
  EXPECT_EQ(retired[1].container, "w2");
  EXPECT_EQ(retired[1].amount, 190'500);
  const auto lines = quality_lines(book);
  EXPECT_THAT(lines, Contains("w2, Oil can is retired, and by its log 0.1905\u00A0L are in it."));
  EXPECT_THAT(lines, Contains(HasSubstr("bin, Rag bin is retired, and something that was not")));
}

TEST(WasteMonthEntries, TellATransferOfEverythingInOneLineForEachContainer) {
  BookUnderTest book = october_book();
  const auto all = move(book, "w2", "w1", {}, "2026-10-29T09:00:00+01:00");
  const auto emptied = book.enter({"container-change",
                                   "2026-10-30T09:00:00+01:00",
                                   {},
                                   {entries::Handles{"w2", entries::ContainerAct::kEmptied}}});
  std::vector<tallies::EventKind> of_transfer;
  std::vector<tallies::EventKind> of_change;
  for (const EffectFigures& effect : figures_of(book, kOctober).effects) {
    if (effect.entry.seq == all) of_transfer.push_back(effect.effect);
    if (effect.entry.seq == emptied) of_change.push_back(effect.effect);
  }
  EXPECT_THAT(of_transfer, testing::UnorderedElementsAre(tallies::EventKind::kMovedOut,
                                                         tallies::EventKind::kMovedIn));
  EXPECT_THAT(of_change, ElementsAre(tallies::EventKind::kEmptied)) << "that one was told";
}

}  // namespace
}  // namespace benchwarden::reports
