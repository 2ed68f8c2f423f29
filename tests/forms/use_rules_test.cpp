#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// Charger r2, gauge g2 and cylinder n2 were withdrawn at eight in the morning of the entry.
class WithWithdrawn : public World {
 public:
  WithWithdrawn() {
    const auto since = base::parse_rfc3339("2026-11-25T08:00:00Z")->instant;
    for (const char* name : {"tool/r2", "gauge/g2", "cylinder/n2"}) {
      things[name] = Thing{false, false, {}, since};
    }
  }
};

std::string gas_use(const std::string& what, const std::string& more = "") {
  return submit("gas-use", R"({"unit_count":1,)" + what + "}", more);
}

std::string change(const std::string& what) { return submit("cylinder-change", "{" + what + "}"); }

TEST(UseRules, WantWhatIsWithdrawnAndUsedConfirmed) {
  const WithWithdrawn world;
  EXPECT_THAT(refusals(gas_use(R"("cylinder":"n1","tool":"r1")"), world), IsEmpty());
  EXPECT_THAT(
      refusals(gas_use(R"("cylinder":"n2","tool":"r2")"), world),
      ElementsAre("/fields/cylinder needs_confirmation", "/fields/tool needs_confirmation"));
  EXPECT_THAT(
      refusals(gas_use(R"("cylinder":"n2","tool":"r2")", R"(,"confirmed":["tool","cylinder"])"),
               world),
      IsEmpty());
  EXPECT_THAT(refusals(submit("cylinder-check",
                              R"({"cylinder":"n1","gauge_pressure_bar":120,"gauge":"g2"})"),
                       world),
              ElementsAre("/fields/gauge needs_confirmation"));
}

TEST(UseRules, AskOnlyOfWhatIsAUse) {
  const WithWithdrawn world;
  EXPECT_THAT(
      refusals(change(R"("cylinder":"n2","change":"fitted","tool":"r2")"), world),
      ElementsAre("/fields/cylinder needs_confirmation", "/fields/tool needs_confirmation"));
  EXPECT_THAT(refusals(change(R"("cylinder":"n2","change":"refilled")"), world),
              ElementsAre("/fields/cylinder needs_confirmation"));
  EXPECT_THAT(refusals(change(R"("cylinder":"n2","change":"removed","tool":"r2")"), world),
              IsEmpty());
  EXPECT_THAT(refusals(change(R"("cylinder":"n2","change":"returned")"), world), IsEmpty());
}

TEST(UseRules, TakeWhatHappenedBeforeTheWithdrawal) {
  WithWithdrawn world;
  world.things["tool/r2"].out_of_use_since = base::parse_rfc3339("2026-11-25T08:33:57Z")->instant;
  EXPECT_THAT(refusals(gas_use(R"("cylinder":"n1","tool":"r2")"), world), IsEmpty());
  world.things["tool/r2"].out_of_use_since = base::parse_rfc3339("2026-11-25T08:33:56Z")->instant;
  EXPECT_THAT(refusals(gas_use(R"("cylinder":"n1","tool":"r2")"), world),
              ElementsAre("/fields/tool needs_confirmation"));
}

TEST(UseRules, JudgeOfACorrectionOnlyWhatItNamesNewly) {
  WithWithdrawn world;
  world.record(gas_use(R"("cylinder":"n1","tool":"r2")", R"(,"confirmed":["tool"])"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","unit_count":2})"), world), IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","cylinder":"n2"})"), world),
              ElementsAre("/fields/cylinder needs_confirmation"));
}

}  // namespace
}  // namespace benchwarden::forms
