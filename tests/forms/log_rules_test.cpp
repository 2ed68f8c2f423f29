#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// 1.2505 L on the log of w2, which weigh 1.088 kg; nothing in w1.
class WithLogs : public World {
 public:
  WithLogs() {
    logs["w2"] = {true, {quantities::Microlitres(1'250'500), quantities::Milligrams(1'087'935)}};
    logs["w1"] = {true, {quantities::Microlitres(-5), std::nullopt}};
    logs["rag-drum"] = {false, {std::nullopt, quantities::Milligrams(3'000'000)}};
  }
};

std::string poured_over(const std::string& amount, const std::string& more = "") {
  return submit("transfer", R"({"from_container":"w2","to_container":"w1",)" + amount + "}", more);
}

std::string taken_away(const std::string& loads, const std::string& stage = "taken") {
  return submit("collection", R"({"collection":"new","stage":")" + stage + R"(","carrier":"c1",)" +
                                  R"("document_number":"D 1","loads":[)" + loads + "]}");
}

TEST(LogRules, WantMoreThanTheLogHoldsConfirmed) {
  const WithLogs world;
  EXPECT_THAT(refusals(poured_over(R"("volume_ml":1250.5)"), world), IsEmpty());
  EXPECT_THAT(refusals(poured_over(R"("volume_ml":1250.501)"), world),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  EXPECT_THAT(
      refusals(poured_over(R"("volume_ml":1250.501)", R"(,"confirmed":["volume_ml"])"), world),
      IsEmpty());
  const auto result = validate(real_catalog(), json(poured_over(R"("volume_ml":9000)")), world);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().front().value, "9\u202F000\u00A0mL");
  EXPECT_EQ(result.error().front().accepted, "1\u202F250.5\u00A0mL");
}

TEST(LogRules, CompareByWhatWasGivenAndByWhatIsCountedFirst) {
  const WithLogs world;
  EXPECT_THAT(refusals(poured_over(R"("mass_kg":1.088)"), world), IsEmpty());
  EXPECT_THAT(refusals(poured_over(R"("mass_kg":1.089)"), world),
              ElementsAre("/fields/mass_kg needs_confirmation"));
  EXPECT_THAT(refusals(poured_over(R"("volume_ml":1250,"mass_kg":2)"), world), IsEmpty())
      << "the volume is what counts";
  EXPECT_THAT(refusals(submit("transfer", R"({"from_container":"w2","to_container":"w1"})"), world),
              IsEmpty());
}

TEST(LogRules, WantAMassThatTheDensityDoesNotMakeOfTheVolumeConfirmed) {
  World world;
  world.things["stream/oil"].attributes = {
      {"density_kg_m3",
       quantities::Quantity{base::Decimal{870'000}, quantities::find_unit("kg_m3")}}};
  const auto load = [](const std::string& mass) {
    return R"({"container":"w1","volume_ml":1000,"mass_kg":)" + mass + "}";
  };
  // 0.87 kg, give or take a fifth of it
  for (const char* within : {"0.696", "1.044"}) {
    EXPECT_THAT(refusals(taken_away(load(within)), world), IsEmpty()) << within;
  }
  for (const char* beyond : {"0.695", "1.045", "250"}) {
    EXPECT_THAT(refusals(taken_away(load(beyond)), world),
                ElementsAre("/fields/loads/0/mass_kg needs_confirmation"))
        << beyond;
  }
  const auto result = validate(real_catalog(), json(taken_away(load("250"))), world);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().front().accepted, "0.696 {to} 1.044\u00A0kg");
  world.things["stream/oil"].attributes.clear();
  EXPECT_THAT(refusals(taken_away(load("250")), world), IsEmpty()) << "no density to tell by";
}

TEST(LogRules, HoldForEachLoadThatIsTaken) {
  const WithLogs world;
  const std::string loads =
      R"({"container":"w2","volume_ml":1000},{"container":"rag-drum","mass_kg":3.5},)"
      R"({"container":"w1","volume_ml":1})";
  EXPECT_THAT(refusals(taken_away(loads), world),
              ElementsAre("/fields/loads/1/mass_kg needs_confirmation",
                          "/fields/loads/2/volume_ml needs_confirmation"));
  const std::string planned =
      submit("collection",
             R"({"collection":"new","stage":"planned","planned_date":"2026-11-30","loads":[)" +
                 loads + "]}");
  EXPECT_THAT(refusals(planned, world), IsEmpty()) << "nothing leaves yet";
}

TEST(LogRules, JudgeOfACorrectionOnlyWhatItGives) {
  WithLogs world;
  world.record(poured_over(R"("volume_ml":1000)"));
  world.logs["w2"] = {true, {quantities::Microlitres(500'000), std::nullopt}};
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","note":"jug 2"})"), world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":501})"), world),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":501})",
                               R"(,"confirmed":["volume_ml"])"),
                       world),
              IsEmpty());
}

}  // namespace
}  // namespace benchwarden::forms
