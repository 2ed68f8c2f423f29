#include "workshop/signer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/record.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const Sender kNobody{std::nullopt, std::nullopt};
const Sender kTabletAlone{std::nullopt, "d1"};
const Sender kOnATablet{kTechnician, "d1"};
const Sender kElsewhere{kTechnician, std::nullopt};

Told drain_with(const std::string& more) {
  return tell("oil-drained", R"({"container":"w1","volume_ml":5})", kNow, more);
}

const char* const kRenaming =
    R"({"thing_class":"container","thing":"w1","act":"changed","name":"Oil drum"})";

entries::Signature signature_of(const TestWorkshop& workshop, const Sender& sender,
                                const std::string& more) {
  const auto receipt = receipt_of(record(workshop.ports(), sender, drain_with(more).json));
  return workshop.ports().book.entry(receipt.seq)->signature;
}

std::vector<std::string> faults(const TestWorkshop& workshop, const Sender& sender,
                                const Told& told) {
  return faults_of(record(workshop.ports(), sender, told.json));
}

TEST(Signer, IsThePersonSignedInUnlessItSaysOtherwise) {
  const TestWorkshop workshop;
  for (const char* more : {"", R"(,"person":"p3")", R"(,"person":null,"claimed":false)"}) {
    for (const Sender& sender : {kOnATablet, kElsewhere}) {
      const auto signature = signature_of(workshop, sender, more);
      EXPECT_EQ(signature.person, "p3") << more;
      EXPECT_TRUE(signature.person_verified) << more;
      EXPECT_EQ(signature.device, sender.device) << more;
    }
  }
}

TEST(Signer, IsNotVerifiedInAnothersNameOrWithoutAPin) {
  const TestWorkshop workshop;
  for (const Sender& sender : {kTabletAlone, kOnATablet}) {
    const auto signature = signature_of(workshop, sender, R"(,"person":"p2","claimed":true)");
    EXPECT_EQ(signature.person, "p2");
    EXPECT_FALSE(signature.person_verified);
    EXPECT_EQ(signature.device, "d1");
  }
  // As it was sent while that person was signed in, and arrived when nobody was any more.
  EXPECT_FALSE(signature_of(workshop, kTabletAlone, R"(,"person":"p3")").person_verified);
  EXPECT_FALSE(signature_of(workshop, kOnATablet, R"(,"person":"p2")").person_verified);
  EXPECT_FALSE(signature_of(workshop, kOnATablet, R"(,"claimed":true)").person_verified);
}

TEST(Signer, IsNobodyElseWithoutAPairedDevice) {
  const TestWorkshop workshop;
  for (const Sender& sender : {kNobody, kElsewhere}) {
    EXPECT_THAT(faults(workshop, sender, drain_with(R"(,"person":"p2")")),
                ElementsAre("/person not_paired"));
  }
  EXPECT_THAT(faults(workshop, kElsewhere, drain_with(R"(,"claimed":true)")),
              ElementsAre("/person not_paired"));
  EXPECT_THAT(faults(workshop, kNobody, drain_with("")), ElementsAre("/person missing"));
  EXPECT_THAT(faults(workshop, kTabletAlone, drain_with("")), ElementsAre("/person missing"));
}

TEST(Signer, IsSomebodyActiveWhoseRoleRecordsTheKind) {
  const TestWorkshop workshop;
  for (const char* person : {"p9", "", "Bench A"}) {
    const std::string more = R"(,"person":")" + std::string(person) + "\"";
    EXPECT_THAT(faults(workshop, kTabletAlone, drain_with(more)),
                ElementsAre("/person unknown_person"));
  }
  EXPECT_THAT(faults(workshop, kTabletAlone, drain_with(R"(,"person":"p4")")),
              ElementsAre("/kind not_allowed"));
}

TEST(Signer, HasNoMoreSayThanATechnicianWithoutAPin) {
  const TestWorkshop workshop;
  const auto change = [](const std::string& person) {
    return tell("register-change", kRenaming, kNow, R"(,"person":")" + person + "\"");
  };
  EXPECT_THAT(faults(workshop, kTabletAlone, change("p1")), ElementsAre("/kind pin_needed"));
  EXPECT_THAT(faults(workshop, kTabletAlone, change("p3")), ElementsAre("/kind not_allowed"));
  EXPECT_THAT(faults(workshop, {kManager, "d1"}, change("p1")), IsEmpty());
  const auto entered =
      workshop.enter(tell("register-change", R"({"thing_class":"tool","thing":"h9","act":"added",)"
                                             R"("name":"Press","tool_type":"other"})"));
  const Told correction =
      tell("correction", R"({"action":"struck-out"})", kNow,
           R"(,"corrects":")" + entered + R"(","reason":"mixed up","person":"p1")");
  EXPECT_THAT(faults(workshop, kTabletAlone, correction), ElementsAre("/corrects not_allowed"));
}

TEST(Signer, IsNotTakenForCompetentWithoutAPin) {
  const TestWorkshop workshop;
  workshop.enter(tell("register-change", R"({"thing_class":"person","thing":"p3","act":"added",)"
                                         R"("competences":[{"competence":"tool-inspection"}]})"));
  const auto inspected = [](const std::string& result) {
    return tell("tool-inspection",
                R"({"inspected_class":"tool","tool":"r1","result":")" + result + "\"}", kNow,
                R"(,"person":"p3")");
  };
  EXPECT_THAT(faults(workshop, kTabletAlone, inspected("withdrawn")), IsEmpty());
  EXPECT_THAT(faults(workshop, kTabletAlone, inspected("in-service")),
              ElementsAre("/fields/result not_competent"));
  EXPECT_THAT(faults(workshop, kOnATablet, inspected("in-service")), IsEmpty());
}

TEST(Signer, WantsTextAndAYesOrNo) {
  const TestWorkshop workshop;
  EXPECT_THAT(faults(workshop, kOnATablet, drain_with(R"(,"person":3,"claimed":"yes")")),
              ElementsAre("/person wrong_type", "/claimed wrong_type"));
}

TEST(Signer, DoesNotMatterForAnEntryThatIsThere) {
  const TestWorkshop workshop;
  const Told told = drain_with(R"(,"person":"p2","claimed":true)");
  const auto first = receipt_of(record(workshop.ports(), kTabletAlone, told.json));
  for (const Sender& sender : {kNobody, kElsewhere, Sender{kInspector, "d2"}}) {
    const auto again = receipt_of(record(workshop.ports(), sender, told.json));
    EXPECT_TRUE(again.already_there);
    EXPECT_EQ(again.seq, first.seq);
  }
  EXPECT_EQ(workshop.ports().book.entry(first.seq)->signature.person, "p2");
}

}  // namespace
}  // namespace benchwarden::workshop
