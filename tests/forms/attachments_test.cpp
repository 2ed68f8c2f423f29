#include "forms/attachments.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "forms/schema.h"
#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string kUnknown(64, '0');

std::string naming(const std::vector<std::string>& digests) {
  std::string list;
  for (const std::string& digest : digests) list += (list.empty() ? "\"" : ",\"") + digest + "\"";
  return R"(,"attachments":[)" + list + "]";
}

std::string check(const std::vector<std::string>& digests) {
  return submit("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":180})", naming(digests));
}

std::string drained_with(const std::string& more = "") {
  return submit("oil-drained", R"({"container":"w1","volume_ml":60})", more);
}

TEST(Attachments, StandInTheEntryInTheirOrder) {
  EXPECT_THAT(accept(check({kNote, kPhoto}), World()).attachments, ElementsAre(kNote, kPhoto));
  EXPECT_THAT(accept(check({}), World()).attachments, IsEmpty());
  EXPECT_THAT(accept(drained_with(naming({})), World()).attachments, IsEmpty());
}

TEST(Attachments, AreRefusedWhereTheFormTakesNone) {
  const auto result = validate(real_catalog(), json(drained_with(naming({kPhoto}))), World());
  ASSERT_FALSE(result.ok());
  ASSERT_EQ(result.error().size(), 1U);
  EXPECT_EQ(result.error()[0].pointer, "/attachments");
  EXPECT_EQ(result.error()[0].code, entries::RefusalCode::kFieldNotApplicable);
  EXPECT_THAT(result.error()[0].accepted, HasSubstr("cylinder-check, event"));
}

TEST(Attachments, MustHaveBeenSentInAndStandOnce) {
  EXPECT_THAT(refusals(check({kPhoto, kUnknown}), World()),
              ElementsAre("/attachments/1 unknown_attachment"));
  EXPECT_THAT(refusals(check({kPhoto, kNote, kPhoto}), World()),
              ElementsAre("/attachments/2 named_twice"));
}

TEST(Attachments, AreNoMoreThanTheFormTakes) {
  const std::vector<std::string> six(6, kPhoto);
  const auto result = validate(real_catalog(), json(check(six)), World());
  ASSERT_FALSE(result.ok());
  ASSERT_EQ(result.error().size(), 1U);
  EXPECT_EQ(result.error()[0].code, entries::RefusalCode::kTooManyRows);
  EXPECT_EQ(result.error()[0].accepted, "0 … 5");
}

TEST(Attachments, AMalformedOneIsTheOnlyFaultNamed) {
  EXPECT_THAT(refusals(check({"xyz", kPhoto, kPhoto}), World()),
              ElementsAre("/attachments/0 bad_text"));
}

TEST(Attachments, CanBeAllThatACorrectionBrings) {
  World world;
  world.record(check({}));
  const auto content = accept(correct(R"({"action":"corrected"})", naming({kNote})), world);
  EXPECT_THAT(content.attachments, ElementsAre(kNote));
  const auto effective = merged(real_catalog(), world.targets.at(kId).content, content);
  EXPECT_THAT(effective.attachments, IsEmpty()) << "they stay the correction's own";
  EXPECT_THAT(refusals(correct(R"({"action":"corrected"})"), world),
              ElementsAre("/fields nothing_changed"));
}

TEST(Attachments, OfACorrectionAreThoseOfItsTargetsForm) {
  World world;
  world.record(drained_with());
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":59})", naming({kNote})), world),
              ElementsAre("/attachments field_not_applicable"));
  world.record(check({}));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected"})", naming({kUnknown})), world),
              ElementsAre("/attachments/0 unknown_attachment"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected"})",
                               naming({kNote, kNote, kNote, kNote, kNote, kNote})),
                       world),
              ElementsAre("/attachments too_many_rows"));
}

TEST(Attachments, DoNotGoWithAStrikeOut) {
  World world;
  world.record(check({kPhoto}));
  EXPECT_THAT(refusals(correct(R"({"action":"struck-out"})", naming({kNote})), world),
              ElementsAre("/attachments field_not_applicable"));
}

TEST(Attachments, AreShownToTheAppAndInTheSchema) {
  const Definition& form = *real_catalog().find("tool-inspection");
  EXPECT_EQ(base::write_json(*definition_json(form).find("attachments")),
            R"({"label":"Certificate","help":")" + form.attachments->help + R"(","max":5})");
  EXPECT_TRUE(definition_json(*real_catalog().find("oil-drained")).find("attachments")->is_null());
  const auto schema_of = [](const char* kind) {
    const base::Json schema = submission_schema(*real_catalog().find(kind));
    const base::Json* attachments = schema.find("properties")->find("attachments");
    return attachments == nullptr ? "" : base::write_json(*attachments->find("maxItems"));
  };
  EXPECT_EQ(schema_of("tool-inspection"), "5");
  EXPECT_EQ(schema_of("correction"), "10");
  EXPECT_EQ(schema_of("oil-drained"), "");
}

}  // namespace
}  // namespace benchwarden::forms
