#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

using quantities::Quantity;

/// 200 L of the 205 L of w1 are full by the book; 6 L stand on the log of w2.
class AlmostFull : public World {
 public:
  AlmostFull() {
    things["stream/oil"].attributes = {
        {"density_kg_m3", Quantity{base::Decimal{870'000}, quantities::find_unit("kg_m3")}}};
    logs["w1"] = {true, {quantities::Microlitres(200'000'000), std::nullopt}};
    logs["w2"] = {true, {quantities::Microlitres(6'000'000), std::nullopt}};
  }
};

std::string transfer_of(const std::string& amount, const std::string& more = "") {
  return submit("transfer", R"({"from_container":"w2","to_container":"w1")" + amount + "}", more);
}

TEST(RoomRules, WantMoreThanFitsByTheBookConfirmed) {
  AlmostFull world;
  EXPECT_THAT(refusals(drained("5000"), world), IsEmpty());
  const std::string volume = R"(,"confirmed":["volume_ml"])";
  EXPECT_THAT(refusals(drained("5000.001", volume), world),
              ElementsAre("/fields/container needs_confirmation"));
  EXPECT_THAT(refusals(drained("5000.001", R"(,"confirmed":["volume_ml","container"])"), world),
              IsEmpty());
  world.logs.erase("w1");
  EXPECT_THAT(refusals(drained("5001", volume), world), IsEmpty()) << "the log cannot tell";
}

/// What is asked elsewhere about the same field does not stand in for the room.
TEST(RoomRules, AreToldTogetherWithWhateverElseIsAsked) {
  AlmostFull world;
  world.things["stream/oil"].attributes.push_back({"low_code", entries::Text{"14 06 03"}});
  EXPECT_THAT(
      refusals(drained("6000"), world),
      ElementsAre("/fields/container needs_confirmation", "/fields/volume_ml needs_confirmation",
                  "/fields/container needs_confirmation"));
  EXPECT_THAT(refusals(drained("6000", R"(,"confirmed":["volume_ml","container"])"), world),
              IsEmpty());
}

TEST(RoomRules, AreToldTogetherWithTheLogAndTheSizeOfATransfer) {
  AlmostFull world;
  world.things["container/w1"].attributes = {
      {"capacity_l", Quantity{base::Decimal{205'000}, quantities::find_unit("l")}},
      {"stream", entries::Id{"other"}}};
  world.things["container/w2"].attributes = {{"stream", entries::Id{"oil"}}};
  EXPECT_THAT(
      refusals(transfer_of(R"(,"volume_ml":400000)"), world),
      ElementsAre("/fields/volume_ml needs_confirmation", "/fields/to_container needs_confirmation",
                  "/fields/volume_ml needs_confirmation",
                  "/fields/to_container needs_confirmation"));
}

TEST(RoomRules, HoldForATransferOfAnAmountAMassOrAll) {
  AlmostFull world;
  EXPECT_THAT(refusals(transfer_of(R"(,"volume_ml":5000)"), world), IsEmpty());
  EXPECT_THAT(refusals(transfer_of(R"(,"volume_ml":5001)"), world),
              ElementsAre("/fields/to_container needs_confirmation"));
  EXPECT_THAT(refusals(transfer_of(R"(,"mass_kg":4.35)"), world), IsEmpty());
  EXPECT_THAT(refusals(transfer_of(R"(,"mass_kg":4.351)"), world),
              ElementsAre("/fields/to_container needs_confirmation"));
  EXPECT_THAT(refusals(transfer_of(""), world),
              ElementsAre("/fields/to_container needs_confirmation"));
  world.logs["w2"].amount.volume = quantities::Microlitres(5'000'000);
  EXPECT_THAT(refusals(transfer_of(""), world), IsEmpty());
}

TEST(RoomRules, CountNoLogBelowZeroAsRoom) {
  AlmostFull world;
  world.logs["w1"].amount.volume = quantities::Microlitres(-10'000'000);
  EXPECT_THAT(
      refusals(transfer_of(R"(,"volume_ml":205001)", R"(,"confirmed":["volume_ml"])"), world),
      ElementsAre("/fields/to_container needs_confirmation"));
}

TEST(RoomRules, AskNothingOfAnAmountThatCouldNotBeRead) {
  EXPECT_THAT(refusals(transfer_of(R"(,"volume_ml":"all")"), AlmostFull()),
              ElementsAre("/fields/volume_ml text_for_number"));
}

TEST(RoomRules, JudgeOfACorrectionOnlyWhatItGives) {
  AlmostFull world;
  world.record(drained("5000"));
  world.logs["w1"].amount.volume = quantities::Microlitres(204'000'000);
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","note":"jug 2"})"), world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":1001})"), world),
              ElementsAre("/fields/container needs_confirmation"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":1000})"), world), IsEmpty());
}

TEST(RoomRules, WantAReadingAboveTheBrimConfirmed) {
  const AlmostFull world;
  const auto read = [](const std::string& amount, const std::string& more = "") {
    return submit("level-reading",
                  R"({"container":"w1","reading_method":"weighing",)" + amount + "}", more);
  };
  EXPECT_THAT(refusals(read(R"("volume_ml":205000)"), world), IsEmpty());
  EXPECT_THAT(refusals(read(R"("volume_ml":205001)", R"(,"confirmed":[])"), world),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  EXPECT_THAT(refusals(read(R"("volume_ml":205001)", R"(,"confirmed":["volume_ml"])"), world),
              IsEmpty());
  EXPECT_THAT(refusals(read(R"("mass_kg":178.35)"), world), IsEmpty());
  EXPECT_THAT(refusals(read(R"("mass_kg":178.36)"), world),
              ElementsAre("/fields/mass_kg needs_confirmation"));
}

}  // namespace
}  // namespace benchwarden::forms
