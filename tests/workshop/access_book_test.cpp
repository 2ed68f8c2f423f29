#include "workshop/access_book.h"

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

class AccessBook : public ::testing::Test {
 protected:
  TestWorkshop shop_;

  [[nodiscard]] std::vector<entries::Entry> told(const std::string& kind) const {
    book::Selection wanted;
    wanted.kind = kind;
    const auto found = shop_.ports().book.select(wanted);
    EXPECT_TRUE(found.ok());
    return found.ok() ? *found : std::vector<entries::Entry>{};
  }
  AccessChange change(const std::string& act) {
    AccessChange told;
    told.entry = base::new_uuid7(at(kNow));
    told.at = at("2026-11-20T09:00:00Z");
    told.act = act;
    told.done_by = "p1";
    told.account = "p3";
    return told;
  }
};

TEST_F(AccessBook, ToldOfTheSameChangeAgainHoldsItOnce) {
  const AccessChange added = change("person-added");
  ASSERT_TRUE(tell_access_change(shop_.ports(), added).ok());
  ASSERT_TRUE(tell_access_change(shop_.ports(), added).ok());
  const auto entries = told("access-change");
  ASSERT_EQ(entries.size(), 1U);
  EXPECT_EQ(entries[0].content.id, added.entry);
  EXPECT_EQ(entries[0].content.occurred_at.instant, added.at);
  EXPECT_EQ(entries[0].signature.person, "machine");
  const entries::Fields& fields = entries[0].content.fields;
  EXPECT_EQ(entries::find_field_as<entries::Text>(fields, "account")->text, "p3");
  EXPECT_EQ(entries::find_field(fields, "access_until"), nullptr);
}

TEST_F(AccessBook, NamesTheLastDayOfWhatEndsAtMidnight) {
  AccessChange given = change("inspection-given");
  given.scope = "waste";
  given.until = zone_of(*shop_.ports().live.view()).start_of(base::CivilDate{2026, 12, 1});
  ASSERT_TRUE(tell_access_change(shop_.ports(), given).ok());
  const auto entries = told("access-change");
  ASSERT_EQ(entries.size(), 1U);
  const auto* until =
      entries::find_field_as<base::CivilDate>(entries[0].content.fields, "access_until");
  ASSERT_NE(until, nullptr);
  EXPECT_EQ(base::format_date(*until), "2026-11-30");
}

TEST_F(AccessBook, KnowsWhichDaysItWasToldOf) {
  const base::CivilDate day{2026, 11, 19};
  EXPECT_FALSE(*is_day_told(shop_.ports(), day));
  AccessDay counted;
  counted.counts["sign_in_count"] = 7;
  counted.lines = 7;
  counted.digest = std::string(64, '0');
  ASSERT_TRUE(tell_access_day(shop_.ports(), day, counted).ok());
  EXPECT_TRUE(*is_day_told(shop_.ports(), day));
  EXPECT_FALSE(*is_day_told(shop_.ports(), base::CivilDate{2026, 11, 18}));
  const auto entries = told("access-day");
  ASSERT_EQ(entries.size(), 1U);
  const entries::Fields& fields = entries[0].content.fields;
  const auto number = [&](const char* name) {
    return base::format_decimal(entries::find_field_as<quantities::Quantity>(fields, name)->value);
  };
  EXPECT_EQ(number("sign_in_count"), "7");
  EXPECT_EQ(number("log_line_count"), "7");
  EXPECT_EQ(number("too_many_count"), "0");
}

}  // namespace
}  // namespace benchwarden::workshop
