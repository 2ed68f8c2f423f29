// A pack of the workshop's own over a state: what a case cannot show, since cases play the packs
// that are shipped.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/rule_book.h"
#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::BookUnderTest;
using tallies::code_field;
using tallies::enters;
using tallies::id_field;
using tallies::number_field;
using ::testing::ElementsAre;

RulePack oxygen_pack(const std::string& baseline, const std::string& limit) {
  const auto pack = read_pack(
      "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n"
      "[[rules]]\nid = \"own.oxygen\"\nkind = \"room-oxygen\"\ncitation = \"our own\"\n"
      "edition = \"2026\"\nconfidence = \"text-seen\"\nsentence = \"Air enough.\"\n"
      "settings = { release = \"all\" }\nfigures = { limit = { value = \"" +
          limit + "\", unit = \"percent\" }, baseline = { value = \"" + baseline +
          "\", unit = \"percent\" } }\n",
      "local.toml");
  EXPECT_TRUE(pack.ok()) << (pack.ok() ? "" : base::format_faults(pack.error()));
  return *pack;
}

/// A room of so many cubic metres, with one cylinder whose label says 10.78 m³.
std::vector<std::string> oxygen_below(const std::string& baseline, const std::string& limit,
                                      std::int64_t room_m3) {
  const BookUnderTest book(
      {enters("room", "shop", {number_field("volume_m3", room_m3 * 1000, "m3")}),
       enters("cylinder", "n1",
              {code_field("gas", "nitrogen"), id_field("room", "shop"),
               number_field("content_m3", 10'780, "m3")})});
  const RulePack pack = oxygen_pack(baseline, limit);
  const Scene scene(book.state(), tallies::day(1), *base::Zone::find("Europe/London"));
  std::vector<std::string> found;
  for (const auto& finding : judge(RuleBook::stacked({&pack}), scene).findings) {
    found.push_back(finding.values.front().second.value);
  }
  return found;
}

// Worked example 12: W-size content 10.78 m³, University of Oxford S4/03, appendix 1.
TEST(RoomOxygen, IsThatOfTheWorkedExampleAtABaselineOf21) {
  EXPECT_THAT(oxygen_below("21", "19.5", 50), ElementsAre("16.472"));
  EXPECT_THAT(oxygen_below("21", "19.5", 100), ElementsAre("18.736"));
  EXPECT_THAT(oxygen_below("21", "19.5", 150), ElementsAre("19.491"));
  EXPECT_THAT(oxygen_below("21", "19.5", 151), ElementsAre());
  EXPECT_THAT(oxygen_below("21", "19.5", 200), ElementsAre());
  EXPECT_THAT(oxygen_below("21", "18", 50), ElementsAre("16.472"));
  EXPECT_THAT(oxygen_below("21", "18", 100), ElementsAre());
}

TEST(RoomOxygen, GoesByTheBaselineOfThePack) {
  EXPECT_THAT(oxygen_below("20.9", "19.5", 151), ElementsAre("19.408"));
}

// 10.78 m³ of 77 m³ are 14 %: 0.86 times 25 % is 21.5 %, to the last digit. Of 49 m³ they are 22 %.
TEST(RoomOxygen, IsEnoughExactlyAtTheLimit) {
  EXPECT_THAT(oxygen_below("25", "19.5", 49), ElementsAre());
  EXPECT_THAT(oxygen_below("25", "19.501", 49), ElementsAre("19.5"));
  EXPECT_THAT(oxygen_below("25", "21.5", 77), ElementsAre());
  EXPECT_THAT(oxygen_below("25", "21.501", 77), ElementsAre("21.5"));
}

}  // namespace
}  // namespace benchwarden::rules
