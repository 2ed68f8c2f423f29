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
  const CollectionStages told = book.state().collection("k1");
  std::vector<std::uint64_t> seqs;
  for (const CollectionTold& each : told) seqs.push_back(each.seq);
  EXPECT_EQ(seqs, (std::vector<std::uint64_t>{3, 4, 6, 5})) << "in order of time";
  EXPECT_EQ(told[0].takes.carrier, "carrier-a");
  EXPECT_EQ(told[1].at, day(3));
  EXPECT_EQ(told[1].takes.document_number, "D-7");
  EXPECT_EQ(told[1].takes.loads, taken);
  EXPECT_EQ(told[2].takes.loads, weighed);
  EXPECT_EQ(book.state().collections().at("k1"), told);
  EXPECT_TRUE(book.state().collection("k2").empty());
}

TEST(Collections, AreMadeAgainFromWhatStands) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(
      day(1), {stage(CollectionStage::kTaken, "carrier-a", "D-7", {{"w1", ml(8), true}})});
  book.correct(seq, {stage(CollectionStage::kTaken, "carrier-b", "D-7", {{"w2", ml(9), false}})});
  const CollectionStages known = book.state().collection("k1");
  ASSERT_EQ(known.size(), 1U);
  EXPECT_EQ(known[0].takes.carrier, "carrier-b");
  EXPECT_EQ(known[0].takes.loads, (std::vector<TakenLoad>{{"w2", ml(9), false}}));
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
  const CollectionStages told = state.collection("k1");
  ASSERT_EQ(told.size(), static_cast<std::size_t>(kEntries));
  EXPECT_EQ(told.front().seq, static_cast<std::uint64_t>(kEntries)) << "in order of time";
}

}  // namespace
}  // namespace benchwarden::tallies
