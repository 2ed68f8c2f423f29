#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::string entered(const std::string& thing_class, const std::string& id, const std::string& act,
                    const std::string& attributes) {
  return submit("register-change", R"({"thing_class":")" + thing_class + R"(","thing":")" + id +
                                       R"(","act":")" + act + "\"," + attributes + "}");
}

std::string closure(const std::string& first, const std::string& last) {
  return entered("closure", "break", "added",
                 R"("name":"Break","first_day":")" + first + R"(","last_day":")" + last + "\"");
}

std::string gauge(const std::string& low, const std::string& high) {
  return entered("gauge", "g9", "added",
                 R"("name":"G","range_low_bar":)" + low + R"(,"range_bar":)" + high);
}

TEST(Order, ADayMayBeTheSameButNotBefore) {
  EXPECT_THAT(refusals(closure("2026-12-24", "2026-12-24"), World()), IsEmpty());
  EXPECT_THAT(refusals(closure("2026-12-24", "2026-12-23"), World()),
              ElementsAre("/fields/last_day out_of_order"));
}

TEST(Order, AClosureIsOfAYearAtMost) {
  EXPECT_THAT(refusals(closure("2027-08-01", "2028-07-31"), World()), IsEmpty());
  EXPECT_THAT(refusals(closure("2027-08-01", "2028-08-01"), World()),
              ElementsAre("/fields/last_day out_of_order"));
  EXPECT_THAT(refusals(closure("1900-01-01", "9999-12-31"), World()),
              ElementsAre("/fields/last_day out_of_order"));
}

TEST(Order, AScaleEndsAboveItsBeginning) {
  EXPECT_THAT(refusals(gauge("-1", "40"), World()), IsEmpty());
  EXPECT_THAT(refusals(gauge("0", "0.1"), World()),
              ElementsAre("/fields/range_bar needs_confirmation"));
  for (const char* low : {"40", "41"}) {
    const std::string submission = entered(
        "gauge", "g9", "added", std::string(R"("name":"G","range_bar":40,"range_low_bar":)") + low);
    std::string confirmed = submission;
    confirmed.insert(confirmed.size() - 1, R"(,"confirmed":["range_low_bar"])");
    EXPECT_THAT(refusals(confirmed, World()), ElementsAre("/fields/range_bar out_of_order")) << low;
  }
}

TEST(Order, AChangeIsHeldAgainstWhatStandsInTheRegister) {
  World world;
  world.things["closure/break"].attributes = {{"first_day", *base::parse_date("2026-12-24")},
                                              {"last_day", *base::parse_date("2026-12-31")}};
  const auto changed = [&](const std::string& attributes) {
    return refusals(entered("closure", "break", "changed", attributes), world);
  };
  EXPECT_THAT(changed(R"("last_day":"2027-01-03")"), IsEmpty());
  EXPECT_THAT(changed(R"("last_day":"2026-12-23")"), ElementsAre("/fields/last_day out_of_order"));
  EXPECT_THAT(changed(R"("first_day":"2027-01-01")"),
              ElementsAre("/fields/first_day out_of_order"));
  EXPECT_THAT(changed(R"("first_day":"2027-01-01","last_day":"2027-01-02")"), IsEmpty());
}

TEST(Order, ACorrectionIsHeldAgainstItsOwnEntry) {
  World world;
  world.record(closure("2026-12-24", "2026-12-31"));
  // What stands today came later and has nothing to do with it.
  world.things["closure/break"].attributes = {{"last_day", *base::parse_date("2028-12-31")}};
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","first_day":"2026-12-31"})"), world),
              IsEmpty());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","first_day":"2027-01-01"})"), world),
              ElementsAre("/fields/first_day out_of_order"));
}

TEST(Order, SaysWhatWouldFit) {
  const auto result = validate(real_catalog(), json(closure("2026-12-24", "2026-12-23")), World());
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error()[0],
            (entries::Refusal{"/fields/last_day", entries::RefusalCode::kOutOfOrder, "2026-12-23",
                              "\u2265 2026-12-24"}));
}

}  // namespace
}  // namespace benchwarden::forms
