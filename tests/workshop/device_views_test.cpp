#include "workshop/device_views.h"

#include <gtest/gtest.h>

#include "base/json.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

std::string told_of(const TestWorkshop& workshop, std::string_view device) {
  return base::write_json(device_in_book(workshop.ports(), device));
}

void send(const TestWorkshop& workshop, const std::string& device, int number) {
  const std::string more = R"(,"device_seq":)" + std::to_string(number);
  workshop.enter(tell("oil-drained", R"({"container":"w1","volume_ml":5})", kNow, more),
                 {"p3", "technician", true, device});
}

TEST(DeviceViews, TellWhatIsMissingAndWhatCameTwice) {
  const TestWorkshop workshop;
  for (const int number : {1, 2, 5, 2, 9}) send(workshop, "d1", number);
  EXPECT_EQ(told_of(workshop, "d1"),
            R"({"entries":5,"last_device_seq":9,"missing":[{"from":3,"to":4},{"from":6,"to":8}],)"
            R"("repeated":[2]})");
}

TEST(DeviceViews, TellNothingOfADeviceThatSentNothing) {
  const TestWorkshop workshop;
  send(workshop, "d1", 1);
  EXPECT_EQ(told_of(workshop, "d2"),
            R"({"entries":0,"last_device_seq":null,"missing":[],"repeated":[]})");
}

TEST(DeviceViews, NameTheDevicesOfTheBook) {
  const TestWorkshop workshop;
  EXPECT_TRUE(devices_in_book(workshop.ports()).empty());
  for (const char* device : {"d7", "d1", "d7"}) send(workshop, device, 1);
  EXPECT_EQ(devices_in_book(workshop.ports()), (std::vector<std::string>{"d1", "d7"}));
}

TEST(DeviceViews, CountWhatIsSentAgainOnce) {
  const TestWorkshop workshop;
  const Actor actor{"p3", "technician", true, "d1"};
  const Told told =
      tell("oil-drained", R"({"container":"w1","volume_ml":5})", kNow, R"(,"device_seq":1)");
  workshop.enter(told, actor);
  workshop.enter(told, actor);
  EXPECT_EQ(told_of(workshop, "d1"),
            R"({"entries":1,"last_device_seq":1,"missing":[],"repeated":[]})");
}

}  // namespace
}  // namespace benchwarden::workshop
