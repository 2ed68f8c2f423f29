// A pack that names what no form has is told so before it judges.

#include "workshop/check_pack.h"

#include <gmock/gmock.h>

#include "workshop/project_files.h"
#include "workshop/rule_adoption.h"

namespace benchwarden::workshop {
namespace {

using ::testing::HasSubstr;

const std::string kPackHead =
    "pack = \"ours\"\ntitle = \"Ours\"\nedition = \"2026-11-01\"\nremarks = \"None.\"\n";

std::string faults_of(const std::string& rules) {
  const auto pack = read_local_pack(real_definitions(), kPackHead + rules, "ours.toml");
  return pack ? "" : base::format_faults(pack.error());
}
std::string faults_of(const std::string& kind, const std::string& more) {
  return faults_of("[[rules]]\nid = \"ours.rule\"\nkind = \"" + kind +
                   "\"\ncitation = \"ours\"\nedition = \"2026\"\nconfidence = \"own-rule\"\n"
                   "sentence = \"As agreed.\"\n" +
                   more);
}
/// The faults of a rule about looks, with one of its settings written otherwise.
std::string looked(const std::string& was, const std::string& is) {
  std::string settings =
      R"(about = "container", kind = "container-inspection", field = "closed", codes = "no", )"
      R"(item = "closed")";
  const std::size_t at = settings.find(was);
  EXPECT_NE(at, std::string::npos) << was;
  settings.replace(at, was.size(), is);
  return faults_of("recorded-item", "settings = { " + settings + " }\n");
}
std::string clock_applies(const std::string& condition) {
  return faults_of(
      "storage-clock",
      "figures = { limit = { value = \"30\", unit = \"d\" } }\napplies = [" + condition + "]\n");
}

TEST(CheckPack, KnowsTheClassesKindsFieldsAndCodesOfTheForms) {
  EXPECT_EQ(looked("closed", "closed"), "");
  EXPECT_THAT(
      looked("\"container\"", "\"containr\""),
      HasSubstr("ours.toml:12: rule 'ours.rule': setting 'about' is 'containr', accepted: one "
                "of workshop, stream, container, "));
  EXPECT_THAT(looked("container-inspection", "container-inspektion"),
              HasSubstr("setting 'kind' is 'container-inspektion', accepted: one or more of "));
  EXPECT_THAT(looked("\"closed\"", "\"closd\""),
              HasSubstr("setting 'field' is 'closd', accepted: a field of the kind of entry "
                        "container-inspection"));
  EXPECT_THAT(looked("\"no\"", "\"no, nope\""),
              HasSubstr("setting 'codes' is 'no, nope', accepted: one or more of yes, no"));
}

TEST(CheckPack, KnowsWhatAConditionMayAskFor) {
  const std::string used_oil = R"({ of = "stream", field = "waste_type", codes = ["used-oil"] })";
  EXPECT_EQ(clock_applies(used_oil), "");
  EXPECT_EQ(clock_applies(R"({ of = "stream", field = "waste_type", codes = [""] })"), "");
  EXPECT_THAT(clock_applies(R"({ of = "stream", field = "waste_typ", codes = ["used-oil"] })"),
              HasSubstr("ours.toml:13: rule 'ours.rule': a condition names the field 'waste_typ', "
                        "accepted: a field of the register for stream"));
  EXPECT_THAT(clock_applies(R"({ of = "stream", field = "waste_type", codes = ["used_oil"] })"),
              HasSubstr("a condition on 'waste_type' names the code 'used_oil', accepted: "));
  EXPECT_THAT(clock_applies(R"({ of = "subject", field = "waste_type", codes = ["used-oil"] })"),
              HasSubstr("accepted: a field of the register for container"));
}

TEST(CheckPack, WantsFieldAndFigureInUnitsThatGoTogether) {
  const auto valued = [](const std::string& unit, const std::string& field) {
    return faults_of("recorded-value",
                     "figures = { limit = { value = \"50\", unit = \"" + unit +
                         "\" } }\nsettings = { weighs = \"over\", limit_is = \"at-most\", about = "
                         "\"container\", kind = \"oil-test\", field = \"" +
                         field + "\", item = \"x\" }\n");
  };
  EXPECT_EQ(valued("ppm", "halogens_ppm"), "");
  EXPECT_THAT(valued("bar", "halogens_ppm"),
              HasSubstr("figure 'limit' is in 'bar' and the field 'halogens_ppm' is not, accepted: "
                        "ppm"));
  EXPECT_THAT(valued("ppm", "rebuttal"), HasSubstr("accepted: a field of a quantity"));
}

TEST(CheckPack, KnowsTypesOfWasteAndSuspicions) {
  const auto mixed = [](const std::string& settings) {
    return faults_of("mixing", "settings = { weighs = \"over\", " + settings + " }\n");
  };
  EXPECT_EQ(mixed(R"(foreign = "others", suspected = "solvent")"), "");
  EXPECT_THAT(mixed(R"(foreign = "solvents")"), HasSubstr("setting 'foreign' is 'solvents'"));
  EXPECT_THAT(mixed(R"(suspected = "water-glass")"), HasSubstr("setting 'suspected' is"));
}

TEST(CheckPack, TakesOutOnlyWhatIsThere) {
  EXPECT_EQ(
      faults_of("[[rules]]\nid = \"own.month-close\"\noff = true\nsentence = \"Not here.\"\n"), "");
  EXPECT_THAT(
      faults_of("[[rules]]\nid = \"no.such.rule\"\noff = true\nsentence = \"Gone.\"\n"),
      HasSubstr("ours.toml:5: rule 'no.such.rule' is off and there is none below, accepted: "
                "the id of a built-in rule"));
}

TEST(CheckPack, StopsTheStartForABuiltInPackToo) {
  constexpr const char* kPack = "reports/rules/packs/workshop.toml";
  std::string text = bytes_of(kPack);
  const std::string was = "field = \"label_legible\"";
  text.replace(text.find(was), was.size(), "field = \"label_legibl\"");
  const auto loaded = load_definitions(files_with(kPack, text), font_bytes(), FileOrigin::kFolder);
  ASSERT_FALSE(loaded.ok());
  EXPECT_THAT(base::format_faults(loaded.error()),
              HasSubstr("setting 'field' is 'label_legibl', accepted: "));
}

}  // namespace
}  // namespace benchwarden::workshop
