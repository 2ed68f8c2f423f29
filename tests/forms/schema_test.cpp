#include "forms/schema.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "world.h"

namespace benchwarden::forms {
namespace {

using base::Json;
using testing::ElementsAre;
using testing::HasSubstr;

const Definition& form(std::string_view kind) { return *real_catalog().find(kind); }

/// The member at a path of names; null when there is none.
Json at(const Json& json, const std::vector<std::string>& path) {
  const Json* found = &json;
  for (const std::string& name : path) {
    found = found == nullptr ? nullptr : found->find(name);
  }
  return found == nullptr ? Json() : *found;
}

std::string text_at(const Json& json, const std::vector<std::string>& path) {
  return base::write_json(at(json, path));
}

TEST(Schema, AllowsAQuantityAsNumberOrWithUnit) {
  const Json schema = submission_schema(form("oil-drained"));
  EXPECT_EQ(text_at(schema, {"properties", "fields", "properties", "volume_ml"}),
            R"({"oneOf":[{"type":"number","minimum":0.001,"maximum":20000},)"
            R"({"type":"object","required":["value","unit"],"properties":{"value":)"
            R"({"type":"number"},"unit":{"enum":["ml","l","m3","fl_oz_us","gal_us","fl_oz_imp",)"
            R"("gal_imp","ft3","in3","qt_us","pt_imp","bbl"]}},"additionalProperties":false}]})");
}

TEST(Schema, RefusesUnknownMembersAndNamesTheRequiredOnes) {
  const Json schema = submission_schema(form("oil-drained"));
  EXPECT_EQ(text_at(schema, {"additionalProperties"}), "false");
  EXPECT_EQ(text_at(schema, {"required"}), R"(["id","kind","occurred_at","fields"])");
  EXPECT_EQ(text_at(schema, {"properties", "kind"}), R"({"const":"oil-drained"})");
  EXPECT_EQ(text_at(schema, {"properties", "fields", "required"}), R"(["container","volume_ml"])");
  EXPECT_EQ(text_at(schema, {"properties", "fields", "additionalProperties"}), "false");
  EXPECT_EQ(text_at(schema, {"properties", "corrects"}), "null");
}

TEST(Schema, StatesConditions) {
  const Json schema = submission_schema(form("rag-bin"));
  const std::string rules = text_at(schema, {"properties", "fields", "allOf"});
  EXPECT_THAT(rules, HasSubstr(R"({"if":{"properties":{"bin_act":{"enum":["checked-at-close"]}},)"
                               R"("required":["bin_act"]},"then":{"required":["lid_shut"]},)"
                               R"("else":{"properties":{"lid_shut":false}}})"));
  EXPECT_THAT(rules, HasSubstr(R"("then":{"required":["contaminant"]}})"));
}

TEST(Schema, StatesGroupsOfWhichOneIsGiven) {
  const Json reading = submission_schema(form("level-reading"));
  EXPECT_THAT(text_at(reading, {"properties", "fields", "allOf"}),
              HasSubstr(R"({"anyOf":[{"required":["volume_ml"]},{"required":["mass_kg"]}]})"));
  const Json collection = submission_schema(form("collection"));
  EXPECT_EQ(text_at(collection, {"properties", "fields", "properties", "loads", "items", "allOf"}),
            R"([{"anyOf":[{"required":["volume_ml"]},{"required":["mass_kg"]}]}])");
}

TEST(Schema, LeavesTheFieldsOfACorrectionOpen) {
  const Json schema = submission_schema(form("correction"));
  EXPECT_EQ(text_at(schema, {"properties", "fields", "additionalProperties"}), "true");
  EXPECT_EQ(text_at(schema, {"required"}),
            R"(["id","kind","occurred_at","fields","corrects","reason"])");
}

TEST(Schema, OfStoredFieldsKnowsNoRangesAndRequiresNothing) {
  const Json schema = fields_schema(form("oil-drained"));
  EXPECT_EQ(text_at(schema, {"properties", "volume_ml"}), R"({"type":"number"})");
  EXPECT_EQ(text_at(schema, {"properties", "unit_count"}), R"({"type":"integer"})");
  EXPECT_EQ(text_at(schema, {"required"}), "null");
}

TEST(DefinitionJson, HoldsWhatTheAppDraws) {
  const Json json = definition_json(form("oil-drained"));
  EXPECT_EQ(text_at(json, {"kind"}), "\"oil-drained\"");
  EXPECT_EQ(text_at(json, {"cautions"}), R"(["used-oil-skin","pressurised-parts"])");
  const base::JsonArray& fields = *json.find("fields")->array();
  EXPECT_EQ(text_at(fields[0], {"thing_class"}), "\"container\"");
  EXPECT_EQ(text_at(fields[1], {"unit"}), R"({"id":"ml","symbol":"mL"})");
  EXPECT_EQ(text_at(fields[1], {"normal"}), R"({"lowest":1,"highest":5000})");
  EXPECT_EQ(text_at(fields[1], {"possible"}), R"({"lowest":0.001,"highest":20000})");
  EXPECT_EQ(at(fields[2], {"options"}).array()->size(), 4U);
}

TEST(DefinitionJson, KeepsTheOrderOfTheForm) {
  const Json json = definition_json(form("transfer"));
  std::vector<std::string> names;
  for (const Json& field : *json.find("fields")->array()) {
    names.push_back(*field.find("name")->string());
  }
  EXPECT_THAT(names, ElementsAre("from_container", "to_container", "volume_ml", "mass_kg",
                                 "measured_by", "note"));
}

TEST(DefinitionJson, HoldsTheColumnsOfAList) {
  const Json json = definition_json(form("collection"));
  for (const Json& field : *json.find("fields")->array()) {
    if (*field.find("name")->string() != "loads") continue;
    EXPECT_EQ(field.find("columns")->array()->size(), 4U);
    EXPECT_EQ(text_at(field, {"rows_max"}), "40");
    return;
  }
  FAIL() << "no loads";
}

TEST(CsvColumns, AreTheMembersOfEveryEntryThenTheForm) {
  EXPECT_THAT(csv_columns(form("container-change")),
              ElementsAre("seq", "id", "kind", "form_version", "occurred_at", "recorded_at",
                          "person", "person_verified", "device", "corrects", "reason", "container",
                          "container_act", "location", "seal_number", "label_legible", "note"));
}

}  // namespace
}  // namespace benchwarden::forms
