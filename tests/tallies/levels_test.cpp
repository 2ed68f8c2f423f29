#include "tallies/levels.h"

#include <gtest/gtest.h>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

const Level& level_of(const std::vector<Level>& all, const std::string& container) {
  for (const Level& level : all) {
    if (level.container == container) return level;
  }
  ADD_FAILURE() << container << " has no level";
  return all.front();
}

TEST(Levels, ListEveryContainerInOrderOfId) {
  const BookUnderTest book(usual_register());
  std::vector<std::string> ids;
  for (const Level& level : levels(book.state(), day(9))) ids.push_back(level.container);
  EXPECT_EQ(ids, (std::vector<std::string>{"bin", "can", "drum", "m1", "w1", "w2"}));
}

TEST(Levels, SayVolumeMassAndFractionOfALiquid) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("w1", ml(90'000))});
  book.enter(day(2), {reads("w1", ml(91'000)), handles("w1", entries::ContainerAct::kSealed)});
  book.enter(day(8), {adds("w1", ml(500))});
  const auto all = levels(book.state(), day(5));
  const Level& level = level_of(all, "w1");
  EXPECT_EQ(level.name, "Container w1");
  EXPECT_EQ(level.stream.low_code, "13 01 10");
  EXPECT_TRUE(level.stream.hazardous);
  EXPECT_EQ(level.amount, 90'000 * kMl) << "as at that day";
  EXPECT_EQ(level.volume, quantities::Microlitres(90'000 * kMl));
  EXPECT_EQ(level.mass, quantities::Milligrams(81 * kKg));
  EXPECT_EQ(level.working_limit, 180'000 * kMl) << "90 % of 200 L";
  EXPECT_EQ(level.fraction_permille, 500);
  EXPECT_EQ(level.oldest_content, day(1));
  EXPECT_TRUE(level.sealed);
  ASSERT_TRUE(level.last_reading);
  EXPECT_EQ(level.last_reading->reading - level.last_reading->logged, 1'000 * kMl);
}

TEST(Levels, SayNoVolumeOfASolidAndNoMassWithoutADensity) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {adds("drum", kg(4)), adds("m1", ml(5))});
  const auto all = levels(book.state(), day(5));
  EXPECT_EQ(level_of(all, "drum").volume, std::nullopt);
  EXPECT_EQ(level_of(all, "drum").mass, quantities::Milligrams(4 * kKg));
  EXPECT_FALSE(level_of(all, "drum").stream.hazardous);
  EXPECT_EQ(level_of(all, "drum").working_limit, 0) << "200 L of unknown density";
  EXPECT_EQ(level_of(all, "drum").fraction_permille, std::nullopt);
  EXPECT_EQ(level_of(all, "m1").mass, std::nullopt);
}

TEST(Levels, TurnTheCapacityForSolidsIntoMassByTheirDensity) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {alters("stream", "rags", {number_field("density_kg_m3", 250'000, "kg_m3")})});
  EXPECT_EQ(level_of(levels(book.state(), day(5)), "drum").working_limit, 45 * kKg);
}

TEST(Levels, RoundTheFractionOfALogBelowZeroAwayFromZero) {
  BookUnderTest book(usual_register());
  book.enter(day(1), {moves("w1", "w2", ml(90))});  // 0.5 ‰ of 180 L
  EXPECT_EQ(level_of(levels(book.state(), day(5)), "w1").fraction_permille, -1);
  EXPECT_EQ(level_of(levels(book.state(), day(5)), "w2").fraction_permille, 1);
}

TEST(Levels, StandWithoutAStreamInTheRegister) {
  const BookUnderTest book({enters("container", "x", {id_field("stream", "gone")})});
  const Level level = levels(book.state(), day(1)).at(0);
  EXPECT_EQ(level.stream.id, "");
  EXPECT_EQ(level.working_limit, 0);
  EXPECT_FALSE(stream_of_container(book.state(), "x"));
  EXPECT_FALSE(stream_of_container(book.state(), "y"));
}

TEST(Levels, TakeADensityThatIsNotPositiveForNone) {
  const BookUnderTest book({enters("stream", "s", {number_field("density_kg_m3", 0, "kg_m3")})});
  const auto facts = stream_facts(book.state(), "s");
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->density, std::nullopt);
}

}  // namespace
}  // namespace benchwarden::tallies
