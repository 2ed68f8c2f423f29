#include "tallies/devices.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "tallies/state_builder.h"

namespace benchwarden::tallies {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

NumberRanges ranges_of(const std::vector<std::uint64_t>& numbers) {
  NumberRanges ranges;
  for (const std::uint64_t number : numbers) ranges.add(number);
  return ranges;
}

TEST(NumberRanges, JoinWhatTouches) {
  NumberRanges ranges;
  EXPECT_EQ(ranges.highest(), 0U);
  EXPECT_TRUE(ranges.add(3));
  EXPECT_TRUE(ranges.add(1));
  EXPECT_THAT(ranges.all(), ElementsAre(NumberRange{1, 1}, NumberRange{3, 3}));
  EXPECT_TRUE(ranges.add(2));
  EXPECT_THAT(ranges.all(), ElementsAre(NumberRange{1, 3}));
  EXPECT_FALSE(ranges.add(1));
  EXPECT_FALSE(ranges.add(3));
  EXPECT_TRUE(ranges.add(0));
  EXPECT_TRUE(ranges.add(UINT64_MAX));
  EXPECT_FALSE(ranges.add(UINT64_MAX));
  EXPECT_THAT(ranges.all(), ElementsAre(NumberRange{0, 3}, NumberRange{UINT64_MAX, UINT64_MAX}));
  EXPECT_EQ(ranges.highest(), UINT64_MAX);
}

TEST(NumberRanges, TellWhatIsMissing) {
  EXPECT_THAT(ranges_of({}).gaps_from(1), IsEmpty());
  EXPECT_THAT(ranges_of({1, 2, 3}).gaps_from(1), IsEmpty());
  EXPECT_THAT(ranges_of({5, 2, 9}).gaps_from(1),
              ElementsAre(NumberRange{1, 1}, NumberRange{3, 4}, NumberRange{6, 8}));
  EXPECT_THAT(ranges_of({0, 2}).gaps_from(1), ElementsAre(NumberRange{1, 1}));
  EXPECT_THAT(ranges_of({UINT64_MAX}).gaps_from(1), ElementsAre(NumberRange{1, UINT64_MAX - 1}));
}

TEST(NumberRanges, SayTheSameAsASet) {
  std::mt19937 random(20261129);
  NumberRanges ranges;
  std::set<std::uint64_t> plain;
  for (int i = 0; i < 3'000; ++i) {
    const std::uint64_t number = random() % 2'000;
    EXPECT_EQ(ranges.add(number), plain.insert(number).second);
  }
  std::set<std::uint64_t> told;
  for (const NumberRange& range : ranges.all()) {
    for (std::uint64_t number = range.from; number <= range.to; ++number) told.insert(number);
    EXPECT_FALSE(told.contains(range.to + 1));
  }
  EXPECT_EQ(told, plain);
  for (const NumberRange& gap : ranges.gaps_from(1)) {
    for (std::uint64_t number = gap.from; number <= gap.to; ++number) {
      EXPECT_FALSE(plain.contains(number)) << number;
      EXPECT_TRUE(told.insert(number).second) << number << " in two gaps";
    }
  }
  EXPECT_EQ(told.size(), *plain.rbegin() + (plain.contains(0) ? 1 : 0));
}

SentBy from(const std::string& device, std::optional<std::uint64_t> number) {
  return {device, number};
}

TEST(Devices, CountEachItsOwnNumbers) {
  BookUnderTest book;
  for (const SentBy& sent : {from("d1", 1), from("d2", 1), from("d1", 4), from("d1", 1),
                             from("d1", std::nullopt), from("", 7), from("d1", 1)}) {
    book.enter({0, day(1), day(1), true, {}, sent});
  }
  const auto& devices = book.state().devices();
  ASSERT_EQ(devices.size(), 2U) << "what came from no device is nobody's";
  const DeviceTold& first = devices.at("d1");
  EXPECT_EQ(first.entries, 5U);
  EXPECT_THAT(first.received.all(), ElementsAre(NumberRange{1, 1}, NumberRange{4, 4}));
  EXPECT_THAT(first.repeated.all(), ElementsAre(NumberRange{1, 1}));
  EXPECT_EQ(devices.at("d2").entries, 1U);
  EXPECT_THAT(devices.at("d2").repeated.all(), IsEmpty());
}

TEST(Devices, CountCorrectionsToo) {
  BookUnderTest book;
  const auto seq = book.enter({0, day(1), day(1), true, {}, from("d1", 1)});
  book.strike(seq, from("d1", 2));
  EXPECT_THAT(book.state().devices().at("d1").received.all(), ElementsAre(NumberRange{1, 2}));
}

TEST(Devices, TakeTheRoomOfOneRangeForWhatComesInOrder) {
  BookUnderTest book;
  for (std::uint64_t number = 1; number <= 1'000; ++number) {
    book.enter({0, day(1), day(1), true, {}, from("d1", number)});
  }
  const std::size_t size = book.state().snapshot().size();
  for (std::uint64_t number = 1'001; number <= 10'000; ++number) {
    book.enter({0, day(1), day(1), true, {}, from("d1", number)});
  }
  EXPECT_LE(book.state().snapshot().size(), size + 4) << "the numbers grow by a byte each";
}

TEST(Devices, AreKeptInASnapshot) {
  BookUnderTest book;
  for (const SentBy& sent : {from("d1", 1), from("d1", 3), from("d1", 3), from("d2", 8)}) {
    book.enter({0, day(1), day(1), true, {}, sent});
  }
  const auto state = State::from_snapshot(book.state().snapshot());
  ASSERT_TRUE(state.ok());
  EXPECT_EQ(state->devices(), book.state().devices());
  EXPECT_EQ(state->devices().size(), 2U);
}

}  // namespace
}  // namespace benchwarden::tallies
