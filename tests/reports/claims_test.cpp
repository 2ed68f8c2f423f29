// What reports say of entries that came without a PIN, by what their persons answered since.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fixture.h"
#include "reports/texts.h"
#include "reports/waste_month_document.h"

namespace benchwarden::reports {
namespace {

using entries::Authorship;

/// Three drains that say they are of p2, without a PIN: one is open, one confirmed, one disowned.
struct ClaimedMonth {
  static constexpr const char* kDay = "2026-10-05T10:00:00+02:00";
  std::uint64_t drain() { return book.drain("w1", 1'000'000, kDay, "", {"p2", false}); }
  std::uint64_t answer(std::uint64_t seq, Authorship authorship) {
    return book.enter({"entries-confirmed", kDay, {}, {entries::Confirms{{seq}, authorship}}});
  }

  BookUnderTest book = workshop_book();
  std::uint64_t open = drain();
  std::uint64_t mine = drain();
  std::uint64_t others = drain();
  std::uint64_t yes = answer(mine, Authorship::kMine);
  std::uint64_t no = answer(others, Authorship::kNotMine);
  WasteMonthFigures figures = figures_of(book, {2026, 10});
};

std::vector<std::string> quality_lines(const WasteMonthFigures& figures) {
  const document::Document document = waste_month_document(figures, project_data());
  for (const document::Section& section : document.sections) {
    for (const document::Block& block : section.blocks) {
      if (const auto* box = std::get_if<document::NoteBox>(&block)) return box->lines;
    }
  }
  ADD_FAILURE() << "no box";
  return {};
}

TEST(ReportedClaims, AreListedWhileOpenAndOnceDisowned) {
  const ClaimedMonth month;
  const QualityFigures& quality = month.figures.quality;
  ASSERT_EQ(quality.unconfirmed.size(), 1U);
  EXPECT_EQ(quality.unconfirmed[0].seq, month.open);
  ASSERT_EQ(quality.disowned.size(), 1U);
  EXPECT_EQ(quality.disowned[0].seq, month.others);
  const auto entry = [](std::uint64_t seq) {
    return "Entry " + std::to_string(seq) + " (Oil drained) of 2026-10-05\u00A010:00 names Office";
  };
  EXPECT_THAT(
      quality_lines(month.figures),
      testing::IsSupersetOf({entry(month.open) + "; no PIN confirmed that.",
                             entry(month.others) + ", who says in entry " +
                                 std::to_string(month.no) + " that it was somebody else."}));
}

TEST(ReportedClaims, AreToldByCorrectionsToo) {
  ClaimedMonth month;
  const auto by = month.book.amend(
      {month.mine, "2026-10-06T10:00:00+02:00", "undone at once", {}, {}, {"p2", false}});
  const auto quality = figures_of(month.book, {2026, 10}).quality;
  ASSERT_EQ(quality.unconfirmed.size(), 2U);
  EXPECT_EQ(quality.unconfirmed[1].seq, by);
}

TEST(ReportedClaims, ShowInTheFiguresForMachines) {
  const ClaimedMonth month;
  const base::Json json = waste_month_json(month.figures);
  const base::Json* quality = json.find("data_quality");
  const base::Json& open = quality->find("unconfirmed")->array()->at(0);
  EXPECT_TRUE(open.find("authorship")->is_null());
  EXPECT_TRUE(open.find("confirmed_by")->is_null());
  const base::Json& disowned = quality->find("disowned")->array()->at(0);
  EXPECT_EQ(*disowned.find("authorship")->string(), "not-mine");
  EXPECT_EQ(*disowned.find("confirmed_by")->integer(), static_cast<std::int64_t>(month.no));
}

TEST(ReportedClaims, StandBesideTheName) {
  const ClaimedMonth month;
  const Texts texts(month.figures.frame, project_data().wording);
  const auto answered = [](Authorship authorship) {
    return Person{"p2", false, tallies::Answer{9, authorship}};
  };
  EXPECT_EQ(texts.person({"p2", true}), "Office");
  EXPECT_EQ(texts.person({"p2", false}), "Office (without a PIN)");
  EXPECT_EQ(texts.person(answered(Authorship::kMine)), "Office (without a PIN, confirmed later)");
  EXPECT_EQ(texts.person(answered(Authorship::kNotMine)),
            "Office (without a PIN, says it was somebody else)");
}

}  // namespace
}  // namespace benchwarden::reports
