#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

using entries::ContainerAct;

TEST(Containers, AreCountedByWhatTheirStreamIsCountedBy) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(250)), adds("drum", kg(3))});
  EXPECT_EQ(book.at("w1").level(), 250 * kMl);
  EXPECT_EQ(book.at("drum").level(), 3 * kKg);
  EXPECT_EQ(book.at("w2").level(), 0);
}

TEST(Containers, TurnAMassIntoVolumeByTheDensityRoundedToTheMicrolitre) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", kg(1))});  // at 900 kg/m³: 1.111 111 1 L
  EXPECT_EQ(book.at("w1").level(), 1'111'111);
}

TEST(Containers, CountAnAmountThatCannotBeConvertedAsNothing) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("m1", kg(1)), reads("m1", kg(1))});
  EXPECT_EQ(book.at("m1").level(), 0);
  EXPECT_FALSE(book.at("m1").last_reading(kStart, kEnd)) << "not comparable with the log";
}

TEST(Containers, CutAnImpossibleAmountInsteadOfOverflowing) {
  BookUnderTest book(usual_register());
  for (int i = 0; i < 20; ++i) {
    book.enter(day(1), {adds("w1", {quantities::Microlitres(INT64_MAX), std::nullopt})});
  }
  EXPECT_EQ(book.at("w1").level(), 20 * kAmountMax);
}

TEST(Containers, TellTheLevelAtAnyMoment) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(250))});
  book.enter(day(3), {adds("w1", ml(100))});
  EXPECT_EQ(book.at("w1").level_at(day(1)), 0) << "up to, not including";
  EXPECT_EQ(book.at("w1").level_at(day(2)), 250 * kMl);
  EXPECT_EQ(book.at("w1").level_at(kEnd), 350 * kMl);
}

TEST(Containers, TakeALateEntryAtItsTime) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(250))});
  book.enter(day(5), {reads("w1", ml(400))});
  book.enter(day(3), {adds("w1", ml(100))});
  EXPECT_EQ(book.at("w1").level_at(day(4)), 350 * kMl);
  const auto reading = book.at("w1").last_reading(kStart, kEnd);
  ASSERT_TRUE(reading);
  EXPECT_EQ(reading->reading - reading->logged, 50 * kMl);
}

TEST(Containers, NeverChangeTheLogByAReading) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(250))});
  book.enter(day(2), {reads("w1", ml(900))});
  EXPECT_EQ(book.at("w1").level(), 250 * kMl);
}

TEST(Containers, CompareAReadingWithTheLogSinceLastEmptied) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(2), {handles("w1", ContainerAct::kEmptied)});
  book.enter(day(3), {adds("w1", ml(100))});
  book.enter(day(4), {reads("w1", ml(120))});
  const auto reading = book.at("w1").last_reading(kStart, kEnd);
  ASSERT_TRUE(reading);
  EXPECT_EQ(reading->logged, 100 * kMl);
  EXPECT_FALSE(book.at("w1").last_reading(day(5), kEnd));
}

TEST(StorageClock, StartsWithTheFirstContentAndRestartsOnlyWhenRecordedEmpty) {
  BookUnderTest book(usual_register());
  EXPECT_FALSE(book.at("w1").oldest_content(kEnd));
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(2), {adds("w1", ml(500))});
  book.enter(day(3), {takes("k1", {{"w1", ml(400), false}})});
  EXPECT_EQ(book.at("w1").oldest_content(kEnd), day(1)) << "a partial load does not restart it";
  book.enter(day(4), {takes("k2", {{"w1", ml(500), true}})});
  EXPECT_FALSE(book.at("w1").oldest_content(kEnd));
  EXPECT_EQ(book.at("w1").level(), 0);
  book.enter(day(5), {adds("w1", ml(100))});
  EXPECT_EQ(book.at("w1").oldest_content(kEnd), day(5));
  EXPECT_EQ(book.at("w1").oldest_content(day(4)), day(1)) << "as it was then";
}

TEST(StorageClock, DoesNotTakeALogOfZeroForARecordOfEmpty) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(2), {takes("k1", {{"w1", ml(500), false}})});
  EXPECT_EQ(book.at("w1").level(), 0);
  EXPECT_EQ(book.at("w1").oldest_content(kEnd), day(1));
}

TEST(StorageClock, RestartsWhenAContainerIsSwapped) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(500))});
  book.enter(day(2), {handles("w1", ContainerAct::kSealed)});
  EXPECT_TRUE(book.at("w1").sealed(kEnd));
  book.enter(day(3), {handles("w1", ContainerAct::kSwapped)});
  EXPECT_FALSE(book.at("w1").sealed(kEnd));
  EXPECT_TRUE(book.at("w1").sealed(day(3)));
  EXPECT_FALSE(book.at("w1").oldest_content(kEnd));
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).emptied, 500 * kMl);
}

TEST(WholeMoves, CarryAllThatIsInItAtThatMoment) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(300))});
  book.enter(day(2), {moves("can", "w1", kAll)});
  EXPECT_EQ(book.at("can").level(), 0);
  EXPECT_EQ(book.at("w1").level(), 300 * kMl);
  EXPECT_FALSE(book.at("can").oldest_content(kEnd)) << "nothing is left in it";
}

TEST(WholeMoves, CarryWhatALateEntrySaysWasInIt) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(300))});
  book.enter(day(5), {moves("can", "w1", kAll)});
  book.enter(day(6), {moves("w1", "w2", kAll)});
  book.enter(day(7), {moves("w2", "can", kAll)});
  book.enter(day(4), {adds("can", ml(50))});
  EXPECT_EQ(book.at("w1").level_at(day(6)), 350 * kMl);
  EXPECT_EQ(book.at("w2").level_at(day(7)), 350 * kMl);
  EXPECT_EQ(book.at("can").level(), 350 * kMl) << "round through three containers and back";
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).moved_in, 350 * kMl);
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).corrections, 0) << "late is not corrected";
}

TEST(WholeMoves, ClearALogBelowZeroWithoutMovingAnything) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(100))});
  book.enter(day(2), {moves("can", "w1", ml(150))});
  book.enter(day(3), {moves("can", "w1", kAll)});
  EXPECT_EQ(book.at("can").level(), 0);
  EXPECT_EQ(book.at("w1").level(), 150 * kMl);
  EXPECT_EQ(book.at("can").movement(kStart, kEnd).emptied, -50 * kMl);
}

TEST(WholeMoves, AreConvertedByTheDensityOfWhatIsMoved) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(1'000))});
  book.enter(day(2), {moves("can", "drum", kAll)});
  EXPECT_EQ(book.at("drum").level(), 900'000) << "0.9 kg";
}

TEST(WholeMoves, IntoItselfDoNothing) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("can", ml(10))});
  book.enter(day(2), {moves("can", "can", kAll)});
  EXPECT_EQ(book.at("can").level(), 10 * kMl);
  EXPECT_EQ(book.at("can").events().size(), 1U);
}

TEST(Loads, RecordedAsEmptiedWithoutAnAmountTakeAllOfTheLog) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(700))});
  book.enter(day(3), {takes("k1", {{"w1", kAll, true}, {"w2", kAll, false}})});
  book.enter(day(2), {adds("w1", ml(50))});
  EXPECT_EQ(book.at("w1").movement(kStart, kEnd).taken, 750 * kMl);
  EXPECT_EQ(book.at("w2").movement(kStart, kEnd).taken, 0) << "no amount and not empty: unknown";
}

TEST(Arising, CountsOnceOnEnteringALabelledContainer) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("bin", kg(2))});
  EXPECT_EQ(arisen(book.state(), "rags", kStart, kEnd), 0) << "a working bin does not count";
  book.enter(day(2), {moves("bin", "drum", kAll)});
  EXPECT_EQ(arisen(book.state(), "rags", day(2), day(3)), 2 * kKg);
  EXPECT_EQ(arisen(book.state(), "rags", kStart, day(2)), 0);
  book.enter(day(3), {adds("w1", ml(100))});
  book.enter(day(4), {moves("w1", "w2", ml(60))});
  EXPECT_EQ(arisen(book.state(), "oil", kStart, kEnd), 100 * kMl) << "drum to drum is no arising";
}

TEST(Movement, AddsUpTermByTerm) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(1'000))});
  book.enter(day(11), {adds("w1", ml(200))});
  book.enter(day(12), {adds("can", ml(40)), moves("can", "w1", kAll)});
  book.enter(day(13), {moves("w1", "w2", ml(100))});
  book.enter(day(14), {takes("k1", {{"w1", ml(900), false}})});
  const std::uint64_t wrong = book.enter(day(15), {adds("w1", ml(70))});
  book.correct(wrong, {adds("w1", ml(62))});
  book.enter(day(40), {adds("w1", ml(1))});
  const Movement expected{1'000 * kMl, 270 * kMl, 40 * kMl, 100 * kMl,
                          900 * kMl,   0,         -8 * kMl, 302 * kMl};
  EXPECT_EQ(book.at("w1").movement(day(10), day(30)), expected);
  EXPECT_EQ(book.at("w1").movement(day(30), day(10)).closing, 302 * kMl) << "an empty interval";
}

}  // namespace
}  // namespace benchwarden::tallies
