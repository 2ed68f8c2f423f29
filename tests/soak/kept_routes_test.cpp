#include <gtest/gtest.h>

#include <chrono>
#include <functional>
#include <future>
#include <utility>

#include "http/api.h"
#include "workshop/test_workshop.h"

namespace benchwarden::http {
namespace {

/// Does something when it is first asked for the time.
class CallingClock : public base::Clock {
 public:
  CallingClock(const base::Clock& under, std::function<void()> once)
      : under_(under), once_(std::move(once)) {}
  [[nodiscard]] base::Instant now() const override {
    if (once_) std::exchange(once_, nullptr)();
    return under_.now();
  }

 private:
  const base::Clock& under_;
  mutable std::function<void()> once_;
};

TEST(KeptRoutes, RecordingDoesNotWaitForWhoIsToldTheMonths) {
  using namespace std::chrono_literals;
  workshop::TestWorkshop shop;
  shop.enter(workshop::drain("w1", "500"));
  std::future<void> recording;
  auto meanwhile = std::future_status::timeout;
  const CallingClock clock(shop.clock, [&] {
    recording = std::async(std::launch::async, [&] {
      workshop::record(shop.ports(), {workshop::kManager, std::nullopt},
                       workshop::drain("w1", "100").json);
    });
    meanwhile = recording.wait_for(5s);
  });
  const workshop::Ports& own = shop.ports();
  const workshop::Ports ports{own.book,  own.live,      own.definitions, clock,
                              own.names, own.admission, own.costly,      own.packs};
  const auto access = access::Access::open(shop.folder(), shop.clock);
  ASSERT_TRUE(access.ok()) << access.error().detail;
  const ApiPorts api{ports, **access, "0", {}, false, nullptr, nullptr, nullptr};
  for (const Route& route : api_routes(api)) {
    if (route.pattern != "/api/v1/months") continue;
    Request request;
    request.method = "GET";
    request.path = route.pattern;
    EXPECT_EQ(route.handler(request, Context({}, {})).status, 200);
  }
  EXPECT_EQ(meanwhile, std::future_status::ready);
}

}  // namespace
}  // namespace benchwarden::http
