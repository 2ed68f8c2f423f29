#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string register_change(const std::string& attributes) {
  return submit("register-change",
                R"({"thing_class":"container","thing":"w1","act":"changed")" + attributes + "}");
}

TEST(Register, AsksOfANewThingWhatItsClassNeeds) {
  EXPECT_THAT(
      refusals(
          submit("register-change", R"({"thing_class":"container","thing":"w9","act":"added"})"),
          World()),
      ElementsAre("/fields/name missing", "/fields/stream missing", "/fields/capacity_l missing",
                  "/fields/working_limit_percent missing", "/fields/counts_waste missing"));
}

TEST(Register, RefusesAttributesOfAnotherClass) {
  EXPECT_THAT(refusals(register_change(R"(,"location":"Bay 3","water_capacity_l":20)"), World()),
              ElementsAre("/fields/water_capacity_l field_not_applicable"));
}

TEST(Register, ChangesOnlyWhatMayChange) {
  EXPECT_THAT(refusals(register_change(R"(,"stream":"oil","location":"Bay 3")"), World()),
              IsEmpty());
  World world;
  world.things["stream/rags"] = Thing{};
  EXPECT_THAT(refusals(register_change(R"(,"stream":"rags")"), world),
              ElementsAre("/fields/stream fixed_attribute"));
}

TEST(Register, WantsAChangeToChangeSomething) {
  EXPECT_THAT(refusals(register_change(R"(,"name":"Oil drum","capacity_l":205)"), World()),
              ElementsAre("/fields nothing_changed"));
  EXPECT_THAT(refusals(register_change(R"(,"name":"Oil drum","capacity_l":200)"), World()),
              IsEmpty());
}

TEST(Register, DoesNotCallAnUnreadableAttributeNoChange) {
  EXPECT_THAT(refusals(register_change(R"(,"capacity_l":"big")"), World()),
              ElementsAre("/fields/capacity_l text_for_number"));
}

TEST(Register, RetiresAThingWithoutAttributes) {
  EXPECT_THAT(refusals(submit("register-change",
                              R"({"thing_class":"container","thing":"w1","act":"retired",)"
                              R"("location":"gone"})"),
                       World()),
              ElementsAre("/fields/location field_not_applicable"));
}

std::string site(const std::string& id, const std::string& act, const std::string& more = "") {
  return submit("register-change", R"({"thing_class":"workshop","thing":")" + id + R"(","act":")" +
                                       act + "\"" + more + "}");
}

TEST(Register, HasOneWorkshopAndKeepsIt) {
  const std::string attributes = R"(,"name":"S","address":"A","time_zone":"Europe/Berlin")";
  World world;
  EXPECT_THAT(refusals(site("site", "added", attributes), world), IsEmpty());
  EXPECT_THAT(refusals(site("yard", "added", attributes), world),
              ElementsAre("/fields/thing bad_id"));
  world.things["workshop/site"] = Thing{};
  EXPECT_THAT(refusals(site("site", "changed", R"(,"name":"T")"), world), IsEmpty());
  EXPECT_THAT(refusals(site("site", "retired"), world), ElementsAre("/fields/act unknown_code"));
}

std::string retire(const std::string& thing_class, const std::string& id) {
  return submit("register-change", R"({"thing_class":")" + thing_class + R"(","thing":")" + id +
                                       R"(","act":"retired"})");
}

TEST(Register, RetiresAStreamAfterItsContainersAndAContainerOnceEmpty) {
  World world;
  EXPECT_THAT(refusals(retire("stream", "oil"), world), IsEmpty());
  EXPECT_THAT(refusals(retire("container", "w1"), world), IsEmpty());
  world.tied["stream/oil"] = {{"w1", "w2"}, ""};
  world.tied["container/w1"] = {{}, "62 mL"};
  const auto stream = validate(real_catalog(), json(retire("stream", "oil")), world);
  ASSERT_FALSE(stream.ok());
  EXPECT_EQ(stream.error()[0], (entries::Refusal{"/fields/thing", entries::RefusalCode::kStillInUse,
                                                 "oil", "w1, w2"}));
  const auto container = validate(real_catalog(), json(retire("container", "w1")), world);
  ASSERT_FALSE(container.ok());
  EXPECT_EQ(container.error()[0],
            (entries::Refusal{"/fields/thing", entries::RefusalCode::kNotEmptied, "w1", "62 mL"}));
}

TEST(Register, TakesNoContainerOfARetiredStreamHoweverItIsDated) {
  World world;
  world.things["stream/oil"] = Thing{true, true, {}, world.now()};
  EXPECT_THAT(
      refusals(submit("register-change", R"({"thing_class":"container","thing":"w9","act":"added",)"
                                         R"("name":"W9","stream":"oil","capacity_l":60,)"
                                         R"("working_limit_percent":90,"counts_waste":"yes"})"),
               world),
      ElementsAre("/fields/stream retired_thing"));
}

TEST(Register, KeepsAContainerRetiredWhoseStreamIsRetired) {
  World world;
  world.record(retire("container", "w1"));
  EXPECT_THAT(refusals(correct(R"({"action":"struck-out"})"), world), IsEmpty());
  world.things["stream/oil"].retired = true;
  EXPECT_THAT(refusals(correct(R"({"action":"struck-out"})"), world),
              ElementsAre("/corrects retired_thing"));
}

TEST(Register, CorrectsAttributesButNeverWhichThing) {
  World world;
  world.record(submit("register-change", R"({"thing_class":"container","thing":"w9","act":"added",
      "name":"New","stream":"oil","capacity_l":60,"working_limit_percent":90,
      "counts_waste":"yes"})"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","capacity_l":205})"), world), IsEmpty());
  EXPECT_THAT(
      refusals(correct(R"({"action":"corrected","thing":"w8","counts_waste":"no"})"), world),
      ElementsAre("/fields/thing fixed_attribute", "/fields/counts_waste fixed_attribute"));
}

std::string inspected(const std::string& tool, const std::string& result) {
  return submit("tool-inspection", R"({"inspected_class":"tool","tool":")" + tool +
                                       R"(","result":")" + result + "\"}");
}

TEST(Inspection, ReturnsAWithdrawnToolOnlyByACompetentPerson) {
  World world;
  EXPECT_THAT(refusals(inspected("r2", "withdrawn"), world), IsEmpty());
  EXPECT_THAT(refusals(inspected("r1", "in-service"), world), IsEmpty());
  EXPECT_THAT(refusals(inspected("r2", "in-service"), world),
              ElementsAre("/fields/result not_competent"));
  world.competences = {"gauge-inspection"};
  EXPECT_THAT(refusals(inspected("r2", "in-service"), world),
              ElementsAre("/fields/result not_competent"))
      << "for gauges only";
  world.competences = {"tool-inspection"};
  EXPECT_THAT(refusals(inspected("r2", "in-service"), world), IsEmpty());
}

TEST(Inspection, CannotBeCorrectedOrStruckIntoServiceEither) {
  World world;
  world.record(inspected("r2", "withdrawn"));
  const std::string corrected = correct(R"({"action":"corrected","result":"in-service"})");
  const std::string struck = correct(R"({"action":"struck-out"})");
  EXPECT_THAT(refusals(corrected, world), ElementsAre("/fields/result not_competent"));
  EXPECT_THAT(refusals(struck, world), ElementsAre("/corrects not_competent"));
  world.competences = {"tool-inspection"};
  EXPECT_THAT(refusals(corrected, world), IsEmpty());
  EXPECT_THAT(refusals(struck, world), IsEmpty());
}

TEST(Inspection, WithdrawalCannotBeMovedToAnotherThingOrEmptied) {
  World world;
  world.record(inspected("r1", "withdrawn"));
  const std::string moved = correct(R"({"action":"corrected","tool":"r2"})");
  EXPECT_THAT(refusals(moved, world), ElementsAre("/fields/tool not_competent"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","note":"hose split"})"), world), IsEmpty());

  World gas;
  gas.record(submit("cylinder-check",
                    R"({"cylinder":"n1","gauge_pressure_bar":150,"result":"withdrawn"})"));
  const std::string emptied =
      correct(R"({"action":"corrected","cleared":[{"cleared_field":"result"}]})");
  EXPECT_THAT(refusals(emptied, gas), ElementsAre("/fields/result not_competent"));

  world.competences = {"tool-inspection"};
  gas.competences = {"cylinder-handling"};
  EXPECT_THAT(refusals(moved, world), IsEmpty());
  EXPECT_THAT(refusals(emptied, gas), IsEmpty());
}

TEST(Inspection, OfEarlierServiceMayStillGetANote) {
  World world;
  world.record(inspected("r1", "in-service"));
  world.things["tool/r1"].in_service = false;  // withdrawn since
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","note":"hose too"})"), world), IsEmpty());
}

TEST(Things, OutOfUseTakeWhatHappenedBefore) {
  World world;
  const std::string sealed =
      submit("oil-drained", R"({"container":"w3","volume_ml":62})");  // 08:33:56 UTC
  world.things["container/w3"].out_of_use_since =
      base::parse_rfc3339("2026-11-25T08:40:00Z")->instant;
  EXPECT_THAT(refusals(sealed, world), IsEmpty());
  world.things["container/w3"].out_of_use_since =
      base::parse_rfc3339("2026-11-25T08:33:56Z")->instant;
  EXPECT_THAT(refusals(sealed, world), ElementsAre("/fields/container not_in_service"));
}

TEST(Things, ThatAreRetiredCanStillBeReportedOn) {
  World world;
  world.role = "daemon";
  const std::string digest(64, 'a');
  EXPECT_THAT(refusals(submit("report-issued",
                              R"({"report":"cylinder-history","cylinder":"n4","paper":"a4",)"
                              R"("book_size":3,"report_digest":")" +
                                  digest + R"(","book_root":")" + digest + "\"}"),
                       world),
              IsEmpty());
}

}  // namespace
}  // namespace benchwarden::forms
