#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "forms/catalog.h"
#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string begun(const std::string& guard, const std::string& eyes, const std::string& more = "") {
  return submit("stuck-part",
                R"({"stuck_part":"s9","work_stage":"opened","pressure_state":"released",)"
                R"("stop_fitted":"yes","ear_protection":"yes","guard":")" +
                    guard + R"(","eye_protection":")" + eyes + "\"}",
                more);
}

TEST(UsualAnswers, AreTakenAndOthersWantConfirmedOneByOne) {
  EXPECT_THAT(refusals(begun("yes", "yes"), World()), IsEmpty());
  EXPECT_THAT(
      refusals(begun("no", "no"), World()),
      ElementsAre("/fields/guard needs_confirmation", "/fields/eye_protection needs_confirmation"));
  EXPECT_THAT(refusals(begun("no", "no", R"(,"confirmed":["guard"])"), World()),
              ElementsAre("/fields/eye_protection needs_confirmation"));
  EXPECT_THAT(refusals(begun("no", "no", R"(,"confirmed":["guard","eye_protection"])"), World()),
              IsEmpty());
}

TEST(UsualAnswers, AreOptionsOfTheField) {
  const auto loaded = Catalog::load({{"forms/definitions/a.toml", R"(kind = "a"
version = 1
title = "A"
purpose = "For tests."
roles_allowed = ["manager"]
[[fields]]
name = "choice"
label = "Choice"
help = "One of them."
type = "code"
options = [{ code = "yes", label = "Yes" }]
usual = ["no"]
[[effects]]
effect = "notes"
)"}});
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(base::format_faults(loaded.error()),
            "forms/definitions/a.toml:6: field 'choice': 'usual' names 'no', which is no option\n");
}

TEST(UsualAnswers, AreToldByTheirLabels) {
  const auto result = validate(real_catalog(), json(begun("no", "yes")), World());
  ASSERT_FALSE(result.ok());
  const entries::Refusal& refusal = result.error().at(0);
  EXPECT_EQ(refusal.unusual, entries::Unusual::kAnswer);
  EXPECT_EQ(refusal.value, "No");
  EXPECT_EQ(refusal.accepted, "Yes");
}

}  // namespace
}  // namespace benchwarden::forms
