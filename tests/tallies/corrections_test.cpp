#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

using entries::ContainerAct;

TEST(Corrections, ChangeTheAmountAndKeepTheOriginal) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(day(1), {adds("w1", ml(620))});
  book.enter(day(2), {adds("w1", ml(10))});
  book.correct(seq, {adds("w1", ml(62))});
  book.correct(seq, {adds("w1", ml(64))});
  EXPECT_EQ(book.at("w1").events().front().original, 620 * kMl);
  const Movement movement = book.at("w1").movement(kStart, kEnd);
  EXPECT_EQ(movement.added, 630 * kMl);
  EXPECT_EQ(movement.corrections, -556 * kMl);
  EXPECT_EQ(movement.closing, 74 * kMl);
  EXPECT_EQ(book.at("w1").arisen(kStart, kEnd), 74 * kMl) << "arisen is as corrected";
}

TEST(Corrections, ToAnotherContainerTakeItHereAndBringItThere) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(day(1), {adds("w1", ml(100))});
  book.correct(seq, {adds("w2", ml(100))});
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, -100 * kMl);
  EXPECT_EQ(book.at("w2").movement(kStart, kEnd).corrections, 100 * kMl);
  EXPECT_EQ(book.at("w2").movement(kStart, kEnd).added, 0);
  EXPECT_FALSE(book.at("w1").oldest_content(kEnd));
  EXPECT_EQ(book.at("w2").oldest_content(kEnd), day(1));
  book.correct(seq, {adds("w1", ml(100))});
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, 0) << "and back again";
  EXPECT_EQ(book.at("w2").level(), 0);
  EXPECT_EQ(book.at("w1").events().size(), 1U);
}

TEST(Corrections, OfANoteChangeNoFigure) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(day(1), {adds("w1", ml(100))});
  const auto correction = book.correct(seq, {adds("w1", ml(100))});
  EXPECT_FALSE(book.at("w1").events().front().corrected);
  ASSERT_EQ(book.state().corrected().size(), 1U);
  EXPECT_EQ(book.state().corrected()[0], (Mark{day(1), day(1), seq, correction}));
}

TEST(Corrections, SpreadThroughMovesOfAllContent) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(day(1), {adds("can", ml(300))});
  book.enter(day(2), {moves("can", "w1", kAll)});
  book.correct(seq, {adds("can", ml(280))});
  EXPECT_EQ(book.at("w1").level(), 280 * kMl);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, 0) << "the move was not corrected";
  EXPECT_EQ(book.at("can").movement(kStart, kEnd).corrections, -20 * kMl);
}

TEST(Corrections, TurnAMoveOfAllIntoAStatedAmountAndBack) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(300))});
  const auto seq = book.enter(day(2), {moves("can", "w1", kAll)});
  book.correct(seq, {moves("can", "w1", ml(250))});
  EXPECT_EQ(book.at("can").level(), 50 * kMl);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).moved_in, 300 * kMl);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, -50 * kMl);
  EXPECT_EQ(book.at("can").oldest_content(kEnd), day(1)) << "no longer recorded as empty";
  book.correct(seq, {moves("can", "w1", kAll)});
  EXPECT_EQ(book.at("can").level(), 0);
  EXPECT_EQ(book.at("w1").level(), 300 * kMl);
}

TEST(Corrections, SendAMoveOfAllElsewhere) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(300))});
  const auto seq = book.enter(day(2), {moves("can", "w1", kAll)});
  book.correct(seq, {moves("can", "w2", kAll)});
  book.enter(day(1), {adds("can", ml(5))});
  EXPECT_EQ(book.at("w1").level(), 0);
  EXPECT_EQ(book.at("w2").level(), 305 * kMl);
}

TEST(Corrections, LeaveTheOtherLoadsOfAnEntryAlone) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500)), adds("w2", ml(90))});
  const auto seq = book.enter(day(3), {takes("k1", {{"w1", kAll, true}, {"w2", ml(80), false}})});
  book.correct(seq, {takes("k1", {{"w1", kAll, true}, {"w2", ml(85), false}})});
  book.enter(day(2), {adds("w1", ml(7))});
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).taken, 507 * kMl);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, 0);
  EXPECT_EQ(book.at("w2").movement(kStart, kEnd).corrections, -5 * kMl);
}

TEST(Corrections, LeaveAMoveOfAllAtTheDensityItWasRecordedWith) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(100))});
  const auto seq = book.enter(day(2), {moves("can", "drum", kAll), adds("w1", ml(1))});
  book.enter(day(3), {alters("stream", "oil", {number_field("density_kg_m3", 800'000, "kg_m3")})});
  book.correct(seq, {moves("can", "drum", kAll), adds("w1", ml(2))});
  book.enter(day(1), {adds("can", ml(100))});
  EXPECT_EQ(book.at("drum").level(), 180'000) << "0.2 L at 900 kg/m³";
}

TEST(Corrections, OfTheSourceOfAMoveOfAllShowAtTheOtherEnd) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(30)), adds("w2", ml(45))});
  const auto seq = book.enter(day(2), {moves("can", "w1", kAll)});
  book.correct(seq, {moves("w2", "w1", kAll)});
  EXPECT_EQ(book.at("can").level(), 30 * kMl);
  EXPECT_EQ(book.at("w2").level(), 0);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).moved_in, 30 * kMl);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, 15 * kMl);
}

TEST(Corrections, TurnAMoveAround) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(300)), adds("w2", ml(20))});
  const auto seq = book.enter(day(2), {moves("w1", "w2", ml(30))});
  book.correct(seq, {moves("w2", "w1", ml(20))});
  EXPECT_EQ(book.at("w1").level(), 320 * kMl);
  EXPECT_EQ(book.at("w2").level(), 0);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).moved_out, 30 * kMl);
}

TEST(StrikeOuts, LeaveTheOriginalAndTakeTheEffect) {
  BookUnderTest book(usual_register());
  const auto seq = book.enter(day(1), {adds("w1", ml(62))});
  book.strike(seq);
  const Event& event = book.at("w1").events().front();
  EXPECT_EQ(event.amount, 0);
  EXPECT_EQ(event.original, 62 * kMl);
  EXPECT_FALSE(event.acts);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, -62 * kMl);
  EXPECT_EQ(arisen(book.state(), "oil", kStart, kEnd), 0);
}

TEST(StrikeOuts, UndoAMoveOfAllAtBothEnds) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("bin", kg(3))});
  const auto seq = book.enter(day(2), {moves("bin", "drum", kAll)});
  book.strike(seq);
  EXPECT_EQ(book.at("bin").level(), 3 * kKg);
  EXPECT_EQ(book.at("drum").level(), 0);
  EXPECT_EQ(book.at("bin").movement(kStart, kEnd).moved_out, 3 * kKg);
  EXPECT_EQ(book.at("bin").movement(kStart, kEnd).corrections, 3 * kKg);
  EXPECT_EQ(arisen(book.state(), "rags", kStart, kEnd), 0);
}

TEST(StrikeOuts, EndTheActOfHandlingAndReading) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(62))});
  const auto emptied = book.enter(day(2), {handles("w1", ContainerAct::kEmptied)});
  const auto sealed = book.enter(day(3), {handles("w1", ContainerAct::kSealed)});
  const auto read = book.enter(day(4), {reads("w1", ml(60))});
  for (const auto seq : {emptied, sealed, read}) book.strike(seq);
  EXPECT_EQ(book.at("w1").level(), 62 * kMl);
  EXPECT_EQ(book.at("w1").oldest_content(kEnd), day(1));
  EXPECT_FALSE(book.at("w1").sealed(kEnd));
  EXPECT_FALSE(book.at("w1").last_reading(kStart, kEnd));
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).emptied, 0);
}

TEST(Checks, DecideServiceByTheLastInOrderOfTime) {
  BookUnderTest book({enters("tool", "r1", {})});
  const auto in_service = [&] { return book.state().thing("tool", "r1")->in_service; };
  EXPECT_TRUE(in_service());
  const auto failed = book.enter(day(5), {checks("r1", entries::Outcome::kFailed)});
  EXPECT_FALSE(in_service());
  book.enter(day(3), {checks("r1", entries::Outcome::kPassed)});
  EXPECT_FALSE(in_service()) << "what was entered late does not outrank what was later";
  book.enter(day(6), {checks("r1", entries::Outcome::kRecorded)});
  EXPECT_FALSE(in_service());
  book.strike(failed);
  EXPECT_TRUE(in_service());
  ASSERT_EQ(book.state().records("tool", "r1").size(), 3U);
  EXPECT_TRUE(book.state().records("tool", "r1")[1].struck);
}

TEST(Checks, FollowACorrectionToAnotherThing) {
  BookUnderTest book({enters("tool", "r1", {}), enters("tool", "r2", {})});
  const auto seq = book.enter(day(1), {checks("r1", entries::Outcome::kWithdrawn)});
  book.correct(seq, {checks("r2", entries::Outcome::kWithdrawn)});
  EXPECT_TRUE(book.state().thing("tool", "r1")->in_service);
  EXPECT_FALSE(book.state().thing("tool", "r2")->in_service);
  book.correct(seq, {checks("r2", entries::Outcome::kPassed)});
  EXPECT_TRUE(book.state().thing("tool", "r2")->in_service);
}

}  // namespace
}  // namespace benchwarden::tallies
