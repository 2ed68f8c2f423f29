#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

using entries::CollectionStage;
using entries::TakenLoad;

entries::Effect stage(CollectionStage stage, std::string carrier, std::string document,
                      std::vector<TakenLoad> loads) {
  return entries::Takes{"k1", stage, std::move(carrier), std::move(document), std::move(loads)};
}

TEST(Collections, GoThroughTheirStagesAndMoveOnlyWhenTaken) {
  BookUnderTest book(usual_register());
  const std::vector<TakenLoad> planned{{"w1", ml(900), false}};
  const std::vector<TakenLoad> taken{{"w1", ml(800), false}};
  const std::vector<TakenLoad> weighed{{"w1", kg(1), false}};
  book.enter(day(1), {adds("w1", ml(1'000))});
  book.enter(day(2), {stage(CollectionStage::kPlanned, "carrier-a", "", planned)});
  EXPECT_EQ(book.at("w1").level(), 1'000 * kMl);
  book.enter(day(3), {stage(CollectionStage::kTaken, "", "D-7", taken)});
  EXPECT_EQ(book.at("w1").level(), 200 * kMl);
  book.enter(day(9), {stage(CollectionStage::kDocumentReturned, "", "", {})});
  book.enter(day(8), {stage(CollectionStage::kWeighed, "", "", weighed)});
  EXPECT_EQ(book.at("w1").level(), 200 * kMl) << "weighed elsewhere moves nothing here";
  const CollectionState expected{"carrier-a", "D-7", day(3), day(9), taken, weighed, {3, 4, 6, 5}};
  EXPECT_EQ(book.state().collections().at("k1"), expected) << "in order of time";
}

TEST(Collections, AreMadeAgainFromWhatStands) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(
      day(1), {stage(CollectionStage::kTaken, "carrier-a", "D-7", {{"w1", ml(8), true}})});
  book.correct(seq, {stage(CollectionStage::kTaken, "carrier-b", "D-7", {{"w2", ml(9), false}})});
  const CollectionState known = book.state().collections().at("k1");
  EXPECT_EQ(known.carrier, "carrier-b");
  EXPECT_EQ(known.loads, (std::vector<TakenLoad>{{"w2", ml(9), false}}));
  EXPECT_EQ(book.at("w1").level(), 0);
  EXPECT_EQ(book.at("w2").level(), -9 * kMl);
  book.strike(seq);
  EXPECT_TRUE(book.state().collections().empty());
  EXPECT_EQ(book.at("w2").level(), 0);
}

TEST(Collections, TakeThousandsOfEntriesDatedBackwards) {
  State state;
  constexpr int kEntries = 20'000;
  for (int i = 1; i <= kEntries; ++i) {
    Posting posting;
    posting.seq = static_cast<std::uint64_t>(i);
    posting.occurred_at = base::Instant{day(200).ms - i};
    posting.recorded_at = posting.occurred_at;
    posting.effects = {
        stage(CollectionStage::kWeighed, "carrier-a", "D-7", {{"w1", kg(1), false}})};
    state.apply(posting);
  }
  const std::vector<std::uint64_t> seqs = state.collections().at("k1").seqs;
  ASSERT_EQ(seqs.size(), static_cast<std::size_t>(kEntries));
  EXPECT_EQ(seqs.front(), static_cast<std::uint64_t>(kEntries)) << "in order of time";
}

}  // namespace
}  // namespace benchwarden::tallies
