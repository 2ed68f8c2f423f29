#include "workshop/retention.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::HasSubstr;

std::string why_kept(const TestWorkshop& workshop, const Actor& actor) {
  const auto free = check_may_forget(workshop.ports(), actor.person);
  return free ? "" : free.error().detail;
}

TEST(MayForget, WhoeverCorrectedARecordThatIsKeptIsKeptWithIt) {
  TestWorkshop workshop;
  workshop.enter(tell("register-change", R"({"thing_class":"workshop","thing":"site",)"
                                         R"("act":"changed","rule_pack":"england"})"));
  const std::string event = workshop.enter(
      tell("event", R"({"event":"e9","event_type":"first-aid","accident_book":"yes"})"),
      kTechnician);
  const std::string kept = ", which is to be kept until 2029-";
  EXPECT_THAT(why_kept(workshop, kTechnician), HasSubstr("p3 signed entry 16" + kept));
  EXPECT_EQ(why_kept(workshop, kOtherManager), "");
  workshop.enter(correct(event, R"({"accident_book":"no"})"), kOtherManager);
  EXPECT_THAT(why_kept(workshop, kOtherManager), HasSubstr("p2 signed entry 17" + kept));
}

}  // namespace
}  // namespace benchwarden::workshop
