#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

Told check(const std::string& cylinder, const std::string& bar, const std::string& when) {
  return tell("cylinder-check",
              R"({"cylinder":")" + cylinder + R"(","gauge_pressure_bar":)" + bar + "}", when);
}

base::Json history(const TestWorkshop& workshop, const std::string& cylinder) {
  auto shown = show_history(workshop.ports(), "cylinder", cylinder);
  if (!shown) {
    ADD_FAILURE() << shown.error().detail;
    return nullptr;
  }
  return *std::move(shown);
}

TEST(History, StandsInOrderOfTimeWhateverTheOrderOfTheBook) {
  const TestWorkshop workshop;
  workshop.enter(check("n1", "180", "2026-11-18T08:00:00Z"));
  workshop.enter(check("n1", "195", "2026-11-04T08:00:00Z"));  // late
  workshop.enter(check("n2", "60", "2026-11-04T08:00:00Z"));
  const base::Json shown = history(workshop, "n1");
  EXPECT_EQ(value_at(shown, "subject/id"), R"("n1")");
  EXPECT_EQ(value_at(shown, "subject/attributes/water_capacity_l"), "50");
  EXPECT_EQ(value_at(shown, "checks/0/entry/fields/gauge_pressure_bar"), "195");
  EXPECT_EQ(value_at(shown, "checks/1/entry/fields/gauge_pressure_bar"), "180");
  EXPECT_EQ(value_at(shown, "checks/2"), "");
}

TEST(History, ShowsOriginalCorrectionsAndWhatFollowsBesideEachOther) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(check("n1", "18", "2026-11-18T08:00:00Z"));
  workshop.enter(correct(slip, R"({"gauge_pressure_bar":180})"));
  workshop.enter(correct(slip, R"({"ambient_temperature_c":19.5})"));
  const base::Json shown = history(workshop, "n1");
  EXPECT_EQ(value_at(shown, "checks/0/entry/fields/gauge_pressure_bar"), "18");
  EXPECT_EQ(value_at(shown, "checks/0/entry/corrections"), "") << "they stand once, beside it";
  EXPECT_EQ(value_at(shown, "checks/0/corrections/0/fields/gauge_pressure_bar"), "180");
  EXPECT_EQ(value_at(shown, "checks/0/corrections/1/fields/ambient_temperature_c"), "19.5");
  EXPECT_EQ(value_at(shown, "checks/0/effective"),
            R"({"ambient_temperature_c":19.5,"cylinder":"n1","gauge_pressure_bar":180})");
  EXPECT_EQ(value_at(shown, "checks/0/struck"), "false");
}

TEST(History, KeepsAStruckOutCheckAndSaysSo) {
  const TestWorkshop workshop;
  const std::string undone = workshop.enter(check("n1", "18", "2026-11-18T08:00:00Z"));
  workshop.enter(strike_out(undone));
  const base::Json shown = history(workshop, "n1");
  EXPECT_EQ(value_at(shown, "checks/0/entry/id"), "\"" + undone + "\"");
  EXPECT_EQ(value_at(shown, "checks/0/struck"), "true");
  EXPECT_EQ(value_at(shown, "checks/0/corrections/0/reason"), R"("undone at once")");
}

TEST(History, ACheckEnteredForTheWrongCylinderShowsWithTheRightOne) {
  const TestWorkshop workshop;
  const std::string slip = workshop.enter(check("n1", "60", "2026-11-18T08:00:00Z"));
  workshop.enter(correct(slip, R"({"cylinder":"n2"})"));
  const base::Json shown = history(workshop, "n2");
  EXPECT_EQ(value_at(shown, "checks/0/entry/id"), "\"" + slip + "\"");
  EXPECT_EQ(value_at(shown, "checks/0/effective/cylinder"), R"("n2")");
}

TEST(History, OfAnUnknownThingIsNotFound) {
  const TestWorkshop workshop;
  const auto shown = show_history(workshop.ports(), "cylinder", "n9");
  ASSERT_FALSE(shown.ok());
  EXPECT_EQ(shown.error().code, base::ErrorCode::kNotFound);
  EXPECT_EQ(shown.error().detail, "there is no cylinder 'n9' in the register");
}

TEST(RegisterView, ListsTheThingsOfOneClassWithTheirState) {
  const TestWorkshop workshop;
  workshop.enter(
      tell("register-change", R"({"thing_class":"cylinder","thing":"n2","act":"retired"})"));
  const base::Json cylinders = *list_things(workshop.ports(), "cylinder", {});
  EXPECT_EQ(value_at(cylinders, "things/0/id"), R"("n1")");
  EXPECT_EQ(value_at(cylinders, "things/0/retired"), "false");
  EXPECT_EQ(value_at(cylinders, "things/1/id"), R"("n2")");
  EXPECT_EQ(value_at(cylinders, "things/1/retired"), "true");
  EXPECT_EQ(value_at(cylinders, "things/1/attributes/working_pressure_bar"), "200");
  EXPECT_EQ(value_at(*list_things(workshop.ports(), "gauge", {}), "things"), "[]");
}

TEST(RegisterView, ShowsOneThingAsItIsNow) {
  const TestWorkshop workshop;
  workshop.enter(
      tell("register-change",
           R"({"thing_class":"container","thing":"w1","act":"changed","location":"Bay 3"})"));
  const auto shown = show_thing(workshop.ports(), "container", "w1", {});
  ASSERT_TRUE(shown.ok());
  EXPECT_EQ(value_at(*shown, "attributes/location"), R"("Bay 3")");
  EXPECT_EQ(value_at(*shown, "attributes/capacity_l"), "205");
  EXPECT_EQ(show_thing(workshop.ports(), "container", "w9", {}).error().code,
            base::ErrorCode::kNotFound);
}

TEST(RegisterView, ShowsOneThingAsItWasAtASizeOfTheBook) {
  const TestWorkshop workshop;
  const Viewpoint before{workshop.size(), base::Instant{INT64_MAX}};
  workshop.enter(
      tell("register-change",
           R"({"thing_class":"container","thing":"w1","act":"changed","location":"Bay 3"})"));
  const auto shown = show_thing(workshop.ports(), "container", "w1", before);
  ASSERT_TRUE(shown.ok());
  EXPECT_EQ(value_at(*shown, "attributes/location"), "");
  const base::Json listed = *list_things(workshop.ports(), "cylinder", Viewpoint{0, {}});
  EXPECT_EQ(value_at(listed, "things"), "[]") << "before the first entry";
}

TEST(Things, OfAClassThatNoRegisterHasAreNotFound) {
  const TestWorkshop workshop;
  for (const auto& answer :
       {list_things(workshop.ports(), "zz", {}), show_thing(workshop.ports(), "zz", "w1", {})}) {
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().code, base::ErrorCode::kNotFound);
    EXPECT_EQ(answer.error().detail,
              "the register has no class 'zz'; accepted: workshop, stream, container, cylinder, "
              "tool, gauge, reference, room, cabinet, product, carrier, person, plant, closure");
  }
}

}  // namespace
}  // namespace benchwarden::workshop
