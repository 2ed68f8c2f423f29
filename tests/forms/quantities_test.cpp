#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using entries::AsRead;
using testing::ElementsAre;
using testing::IsEmpty;

std::string checked(const std::string& pressure) {
  return submit("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":)" + pressure + "}");
}

TEST(Quantities, AreConvertedExactlyAndKeptAsRead) {
  // 1 psi = 6894.757 293 168 36 Pa, from lb, inch and g_n (NIST SP 811, appendix B.8), so
  // 2900 psi = 199.947 96 bar.
  const entries::Content content = accept(checked(R"({"value":2900,"unit":"psi"})"), World());
  EXPECT_EQ(value_of(content, "gauge_pressure_bar"), "199.948");
  EXPECT_THAT(content.as_read,
              ElementsAre(AsRead{"gauge_pressure_bar", base::Decimal{2'900'000}, "psi"}));
}

TEST(Quantities, InTheirOwnUnitLeaveNothingToKeepAsRead) {
  const entries::Content content = accept(checked(R"({"value":200,"unit":"bar"})"), World());
  EXPECT_EQ(value_of(content, "gauge_pressure_bar"), "200");
  EXPECT_THAT(content.as_read, IsEmpty());
}

TEST(Quantities, InsideListsAreKeptAsReadUnderTheirRow) {
  const entries::Content content =
      accept(submit("tool-inspection",
                    R"({"inspected_class":"tool","tool":"r1","result":"in-service","points":[
                       {"nominal_bar":1,"as_found_bar":1},
                       {"nominal_bar":{"value":100,"unit":"psi"},"as_found_bar":6.9}]})"),
             World());
  EXPECT_THAT(content.as_read,
              ElementsAre(AsRead{"points/1/nominal_bar", base::Decimal{100'000}, "psi"}));
}

TEST(Quantities, AreReadToTheEndsOfTheirBands) {
  for (const char* volume : {"1", "5000", "62.125", "62.500"}) {
    EXPECT_THAT(refusals(drained(volume), World()), IsEmpty()) << volume;
  }
  for (const char* volume : {"0.999", "5000.001", "0.001", "20000"}) {
    EXPECT_THAT(refusals(drained(volume), World()),
                ElementsAre("/fields/volume_ml needs_confirmation"))
        << volume;
    EXPECT_THAT(refusals(drained(volume, R"(,"confirmed":["volume_ml"])"), World()), IsEmpty())
        << volume;
  }
  for (const char* volume : {"0", "-0.001", "20000.001"}) {
    EXPECT_THAT(refusals(drained(volume), World()), ElementsAre("/fields/volume_ml impossible"))
        << volume;
  }
}

TEST(Quantities, AreJudgedAfterConversion) {
  EXPECT_THAT(refusals(drained(R"({"value":5,"unit":"l"})"), World()), IsEmpty());
  EXPECT_THAT(refusals(drained(R"({"value":5.001,"unit":"l"})"), World()),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  EXPECT_THAT(refusals(drained(R"({"value":1,"unit":"m3"})"), World()),
              ElementsAre("/fields/volume_ml impossible"));
}

TEST(Quantities, OfARowAreConfirmedByTheirPath) {
  const std::string fields =
      R"({"collection":"c","stage":"weighed","loads":[{"container":"w1","mass_kg":300}]})";
  EXPECT_THAT(refusals(submit("collection", fields), World()),
              ElementsAre("/fields/loads/0/mass_kg needs_confirmation"));
  EXPECT_THAT(
      refusals(submit("collection", fields, R"(,"confirmed":["loads/0/mass_kg"])"), World()),
      IsEmpty());
}

TEST(Quantities, KeepNoTrailingZerosAndNoNegativeZero) {
  EXPECT_EQ(value_of(accept(drained("62.500"), World()), "volume_ml"), "62.5");
  const std::string cold = R"({"container":"w1","volume_ml":62,"temperature_c":-0})";
  EXPECT_EQ(
      value_of(accept(submit("oil-drained", cold, R"(,"confirmed":["temperature_c"])"), World()),
               "temperature_c"),
      "0");
}

TEST(Quantities, WithUnitsNeedBothMembers) {
  EXPECT_THAT(refusals(drained(R"({"value":62})"), World()),
              ElementsAre("/fields/volume_ml/unit missing"));
  EXPECT_THAT(refusals(drained(R"({"unit":"ml"})"), World()),
              ElementsAre("/fields/volume_ml/value missing"));
  EXPECT_THAT(refusals(drained(R"({"unit":"cups","value":"x"})"), World()),
              ElementsAre("/fields/volume_ml/unit unknown_unit",
                          "/fields/volume_ml/value text_for_number"));
}

TEST(Times, MayRunTenMinutesAheadOfTheClock) {
  const auto at = [](const std::string& time) {
    return R"({"id":")" + std::string(kId) + R"(","kind":"oil-drained","occurred_at":")" + time +
           R"(","fields":{"container":"w1","volume_ml":62}})";
  };
  EXPECT_THAT(refusals(at("2026-11-25T10:10:00+01:00"), World()), IsEmpty());
  EXPECT_THAT(refusals(at("2026-11-25T10:10:01+01:00"), World()),
              ElementsAre("/occurred_at in_future"));
  EXPECT_THAT(refusals(at("2000-01-01T00:00:00Z"), World()), IsEmpty());
}

TEST(Envelope, KeepsWhatTheSenderSaysOfItself) {
  const auto result = validate(
      real_catalog(),
      json(submit("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":180})",
                  R"(,"device_seq":41,"clock_offset_ms":-350,"reason":null,"attachments":[")" +
                      kPhoto + R"("])")),
      World());
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->content.device_seq, 41U);
  EXPECT_EQ(result->clock_offset_ms, -350);
  EXPECT_EQ(result->content.attachments.size(), 1U);
  EXPECT_EQ(result->content.form_version, 1);
  EXPECT_EQ(base::format_rfc3339(result->content.occurred_at), "2026-11-25T09:33:56+01:00");
}

TEST(Envelope, GivesItsIdEvenWhenNothingElseIsRight) {
  const auto id = submission_id(json(R"({"id":")" + std::string(kId) + R"(","kind":7})"));
  ASSERT_TRUE(id.has_value());
  EXPECT_EQ(base::format_uuid(*id), kId);
  EXPECT_FALSE(submission_id(json(R"({"id":7})")).has_value());
  EXPECT_FALSE(submission_id(json("[]")).has_value());
}

}  // namespace
}  // namespace benchwarden::forms
