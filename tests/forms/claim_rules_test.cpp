#include "forms/claim_rules.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string answer_for(const std::vector<std::string>& numbers) {
  std::string rows;
  for (const std::string& number : numbers) {
    rows += (rows.empty() ? "" : ",") + (R"({"entry_number":)" + number + "}");
  }
  return submit("entries-confirmed", R"({"authorship":"mine","confirmed_entries":[)" + rows + "]}");
}

std::string row(int index, const std::string& refusal) {
  return "/fields/confirmed_entries/" + std::to_string(index) + "/entry_number " + refusal;
}

TEST(ClaimRules, TakeAnAnswerForOnesOwnOpenEntries) {
  EXPECT_THAT(refusals(answer_for({"3", "4"}), World()), IsEmpty());
}

TEST(ClaimRules, NameTheFaultOfEachEntry) {
  EXPECT_THAT(refusals(answer_for({"3", "99", "7", "5", "6", "3"}), World()),
              ElementsAre(row(1, "unknown_number"), row(2, "others_entry"), row(3, "pin_shown"),
                          row(4, "confirmed_before"), row(5, "named_twice")));
}

TEST(ClaimRules, LeaveWhatCouldNotBeReadToItsReader) {
  EXPECT_THAT(refusals(answer_for({"0", "3.5", "7"}), World()),
              ElementsAre(row(0, "impossible"), row(1, "too_many_places")));
  EXPECT_THAT(refusals(answer_for({}), World()), ElementsAre("/fields/confirmed_entries missing"));
}

TEST(ClaimRules, TakeNoAnswerThatComesWithoutAPin) {
  World world;
  world.verified = false;
  EXPECT_THAT(refusals(answer_for({"3"}), world), ElementsAre("/kind pin_needed"));
}

TEST(ClaimRules, LetNoCorrectionChangeAnAnswer) {
  World world;
  world.record(answer_for({"3"}));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","authorship":"not-mine",)"
                               R"("confirmed_entries":[{"entry_number":4}]})"),
                       world),
              ElementsAre("/fields/confirmed_entries fixed_attribute",
                          "/fields/authorship fixed_attribute"));
}

TEST(ClaimRules, LetOnlyWhoGaveAnAnswerTakeItBack) {
  World world;
  const std::string id = world.record(answer_for({"3"}));
  const std::string strike_out = correct(R"({"action":"struck-out"})");
  EXPECT_THAT(refusals(strike_out, world), IsEmpty());
  world.verified = false;
  EXPECT_THAT(refusals(strike_out, world), ElementsAre("/corrects pin_needed"));
  world.verified = true;
  world.targets.at(id).own = false;
  EXPECT_THAT(refusals(strike_out, world), ElementsAre("/corrects others_entry"));
}

}  // namespace
}  // namespace benchwarden::forms
