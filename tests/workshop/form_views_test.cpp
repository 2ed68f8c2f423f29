#include "workshop/form_views.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using Lines = std::vector<std::string>;

Told site(const std::string& act, const std::string& more) {
  return tell("register-change",
              R"({"thing_class":"workshop","thing":"site","act":")" + act + "\"," + more + "}");
}

/// The lines of the first section of the emergency page that the register has a part in.
Lines filled_lines(const TestWorkshop& workshop) {
  const base::Json page = show_emergency(workshop.ports());
  Lines lines;
  for (int i = 0; !value_at(page, "sections/0/lines/" + std::to_string(i)).empty(); ++i) {
    const std::string line = value_at(page, "sections/0/lines/" + std::to_string(i));
    EXPECT_EQ(line.find('{'), std::string::npos) << line;
    const bool of_register = line.find("You are at") != std::string::npos ||
                             line.find("Workshop emergency phone") != std::string::npos;
    if (of_register) lines.push_back(line);
  }
  EXPECT_EQ(value_at(page, "sections/0/title"), R"("Call for help")");
  return lines;
}

TEST(EmergencyPage, LeavesLinesOutWhileTheSiteIsUnknown) {
  const TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  EXPECT_THAT(filled_lines(workshop), ElementsAre());
  EXPECT_THAT(value_at(show_emergency(workshop.ports()), "sections/0/lines/1"),
              HasSubstr("112 in the European Union"))
      << "the rest stands there all the same";
}

TEST(EmergencyPage, LeavesOnlyTheLineOutWhoseFactIsUnknown) {
  const TestWorkshop workshop;
  EXPECT_THAT(filled_lines(workshop),
              ElementsAre(R"("You are at: Saltmarsh Damper Works, Quay Shed 4")"));
}

TEST(EmergencyPage, FillsInTheSiteAsTheRegisterHasItNow) {
  const TestWorkshop workshop;
  workshop.enter(site("changed", R"("emergency_phone":"112","address":"Quay Shed 5")"));
  EXPECT_THAT(filled_lines(workshop),
              ElementsAre(R"("Workshop emergency phone: 112")",
                          R"("You are at: Saltmarsh Damper Works, Quay Shed 5")"));
}

TEST(EmergencyPage, DoesNotFillInWhatTheSitesOwnNameSays) {
  const TestWorkshop workshop;
  workshop.enter(site("changed", R"("name":"Works {address}")"));
  const base::Json page = show_emergency(workshop.ports());
  EXPECT_EQ(value_at(page, "sections/0/lines/2"), R"("You are at: Works {address}, Quay Shed 4")");
}

TEST(EmergencyPage, NamesCutOffsAndPlacesOnceTheyAreEntered) {
  const TestWorkshop workshop;
  const auto page = [&] { return base::write_json(show_emergency(workshop.ports())); };
  EXPECT_THAT(page(), Not(HasSubstr("Spill kit: ")));
  workshop.enter(site("changed", R"("power_cut_off":"main switch by the door",
      "gas_cut_off":"valves in the corner","spill_kit_place":"chest at drum W1",
      "data_sheets_place":"green folder")"));
  EXPECT_THAT(page(),
              AllOf(HasSubstr("Power: main switch by the door"),
                    HasSubstr("Gas and compressed air: valves in the corner"),
                    HasSubstr("Spill kit: chest at drum W1"), HasSubstr("Here: green folder")));
}

TEST(ShownIn, IsMetricWithAPointUntilTheRegisterSaysOtherwise) {
  const TestWorkshop nobody(TestWorkshop::Register::kEmpty);
  EXPECT_EQ(value_at(shown_in(nobody.ports()), "units"), R"("metric")");
  const TestWorkshop workshop;
  EXPECT_EQ(value_at(shown_in(workshop.ports()), "units"), R"("metric")");
  EXPECT_EQ(value_at(shown_in(workshop.ports()), "number_format"), R"("point")");
  workshop.enter(site("changed", R"("units":"us","number_format":"comma")"));
  EXPECT_EQ(value_at(shown_in(workshop.ports()), "units"), R"("us")");
  EXPECT_EQ(value_at(shown_in(workshop.ports()), "number_format"), R"("comma")");
}

TEST(FormViews, ListEveryKindOfEntry) {
  const TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  const base::Json listed = list_forms(workshop.ports());
  const auto& definitions = workshop.ports().definitions.catalog.definitions();
  ASSERT_EQ(listed.find("forms")->array()->size(), definitions.size());
  EXPECT_EQ(value_at(listed, "forms/0/kind"), R"("access-change")");
  EXPECT_EQ(value_at(listed, "forms/0/version"), "1");
}

TEST(FormViews, PutTheCautionsInTheirWordsBesideTheForm) {
  const TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  const auto form = show_form(workshop.ports(), "oil-drained");
  ASSERT_TRUE(form.ok());
  EXPECT_EQ(value_at(*form, "kind"), R"("oil-drained")");
  EXPECT_EQ(value_at(*form, "cautions/0/id"), R"("used-oil-skin")");
  EXPECT_THAT(value_at(*form, "cautions/0/sentences/0"), HasSubstr("Keep used oil off the skin"));
  EXPECT_EQ(value_at(*form, "cautions/1/id"), R"("pressurised-parts")");
  const auto unknown = show_form(workshop.ports(), "oil-burnt");
  ASSERT_FALSE(unknown.ok());
  EXPECT_EQ(unknown.error().code, base::ErrorCode::kNotFound);
}

TEST(Openapi, HasASchemaForEveryKindOfEntry) {
  const TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  const base::Json document = openapi(workshop.ports());
  EXPECT_EQ(value_at(document, "openapi"), R"("3.1.0")");
  const base::Json* schemas = document.find("components")->find("schemas");
  ASSERT_NE(schemas, nullptr);
  const auto& definitions = workshop.ports().definitions.catalog.definitions();
  const base::Json* one_of = schemas->find("Submission")->find("oneOf");
  ASSERT_NE(one_of, nullptr);
  ASSERT_EQ(one_of->array()->size(), definitions.size());
  for (std::size_t i = 0; i < definitions.size(); ++i) {
    const std::string& kind = definitions[i].kind;
    const base::Json* submission = schemas->find("Submission_" + kind);
    ASSERT_NE(submission, nullptr) << kind;
    EXPECT_EQ(value_at(*submission, "properties/kind/const"), "\"" + kind + "\"");
    EXPECT_NE(schemas->find("Fields_" + kind), nullptr) << kind;
    EXPECT_EQ(*(*one_of->array())[i].find("$ref")->string(),
              "#/components/schemas/Submission_" + kind);
  }
}

}  // namespace
}  // namespace benchwarden::workshop
