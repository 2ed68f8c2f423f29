#include "forms/catalog.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "world.h"

namespace benchwarden::forms {
namespace {

using entries::FieldType;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Catalog, HoldsEveryKindOfTheBook) {
  std::vector<std::string> kinds;
  for (const Definition& definition : real_catalog().definitions()) {
    kinds.push_back(definition.kind);
  }
  const auto all = ElementsAre(
      "access-change", "access-day", "action-closed", "backup-made", "briefing", "cabinet-count",
      "collection", "container-change", "container-inspection", "correction", "cylinder-change",
      "cylinder-check", "end-accepted", "entries-confirmed", "event", "finding-acknowledged",
      "gas-use", "hold", "level-reading", "month-close", "oil-drained", "oil-test", "plant-check",
      "rag-bin", "register-change", "report-issued", "rules-adopted", "solvent-waste", "stuck-part",
      "tool-inspection", "transfer", "walk-round", "waste-determination");
  EXPECT_THAT(kinds, all);
}

TEST(Catalog, TellsWhatAFieldNameMeansInAnyKind) {
  const auto volume = real_catalog().meaning("volume_ml");
  ASSERT_TRUE(volume.has_value());
  EXPECT_EQ(volume->type, FieldType::kQuantity);
  EXPECT_EQ(volume->unit, quantities::find_unit("ml"));
  EXPECT_EQ(real_catalog().meaning("as_found_bar")->type, FieldType::kQuantity);
  EXPECT_EQ(real_catalog().meaning("loads")->type, FieldType::kList);
  EXPECT_FALSE(real_catalog().meaning("volume_gal").has_value());
}

TEST(Catalog, TellsTheLabelOfAnOptionOfAFieldOrColumn) {
  EXPECT_EQ(real_catalog().label_of("topic", "needle-injection"), "Injection by needles");
  EXPECT_EQ(real_catalog().label_of("competence", "cylinder-handling"), "Handling cylinders");
  EXPECT_EQ(real_catalog().label_of("topic", "none-such"), "none-such");
  EXPECT_EQ(real_catalog().label_of("no_such_field", "yes"), "yes");
}

TEST(Catalog, KeepsDefinitionsApartFromOtherFiles) {
  const auto loaded = Catalog::load({{"reports/definitions/a.toml", "not = a = form"}});
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(base::format_faults(loaded.error()), "forms/definitions/: no definition was found\n");
}

/// A small good definition; each case below alters or adds lines.
std::string form(const std::string& head, const std::string& fields,
                 const std::string& effects = "[[effects]]\neffect = \"notes\"\n") {
  return "kind = \"a\"\nversion = 1\ntitle = \"A\"\npurpose = \"For tests.\"\n" + head +
         "roles_allowed = [\"manager\"]\n" + fields + effects;
}

std::string field(const std::string& name, const std::string& rest) {
  return "[[fields]]\nname = \"" + name + "\"\nlabel = \"L\"\nhelp = \"H\"\n" + rest + "\n";
}

const std::string kChoice = field("choice", R"(type = "code"
options = [{ code = "one", label = "One" }, { code = "two", label = "Two" }])");
const std::string kResult = field("result", R"(type = "code"
required = true
options = [{ code = "in-service", label = "In" }, { code = "withdrawn", label = "Out" }])");
const std::string kText = field("word", "type = \"text\"");
const std::string kContainer = field("container", "type = \"id\"\nclass = \"container\"");

std::string faults_of(const std::string& toml,
                      const std::string& path = "forms/definitions/a.toml") {
  const auto loaded = Catalog::load({{path, toml}});
  return loaded ? "" : base::format_faults(loaded.error());
}

TEST(Catalog, ReadsTheSmallFormThatTheFaultCasesAlter) {
  EXPECT_EQ(faults_of(form("", kChoice + kText + kContainer)), "");
}

struct FaultCase {
  const char* what;
  std::string toml;
  const char* fault;  ///< a line of the answer, without the folder
};

std::string effect(const std::string& rest) { return "[[effects]]\n" + rest + "\n"; }

const FaultCase kFaultCases[] = {
    {"an order of one field", form("", kText + "[[in_order]]\nfields = [\"word\"]\n"),
     "a.toml:11: 'in_order' needs two fields or more"},
    {"an order of what cannot be compared",
     form("", kText + kContainer + "[[in_order]]\nfields = [\"word\", \"container\"]\n"),
     "a.toml:17: 'in_order' compares dates, or quantities of one unit: not 'word'"},
    {"a use of no field", form("", kText + "[[uses]]\nfield = \"tool\"\n"),
     "a.toml:11: 'uses' names no id of a class of the register: 'tool'"},
    {"a use of what is no thing", form("", kText + "[[uses]]\nfield = \"word\"\n"),
     "a.toml:11: 'uses' names no id of a class of the register: 'word'"},
    {"a use on a condition of no field",
     form("", kContainer + "[[uses]]\nfield = \"container\"\n"
                           "when = [{ field = \"act\", codes = [\"x\"] }]\n"),
     "condition on 'act': there is no such field"},
    {"an order of no field", form("", kText + "[[in_order]]\nfields = [\"word\", \"day\"]\n"),
     "a.toml:11: 'in_order' names no field: 'day'"},
    {"no TOML", "kind = = 3", "a.toml:1: "},
    {"a float", form("", field("q", "type = \"quantity\"\nunit = \"ml\"\npossible = [1.5, 2.5]")),
     "a.toml:12: floats and TOML dates are not used here: write the value as text"},
    {"a missing member", form("", "[[fields]]\nname = \"word\"\nlabel = \"L\"\ntype = \"text\"\n"),
     "a.toml:6: 'help' is missing"},
    {"an unknown member", form("colour = \"red\"\n", kText),
     "a.toml:5: 'colour' is not known here"},
    {"a member of another type", form("", field("word", "type = \"text\"\nunit = \"ml\"")),
     "a.toml:11: 'unit' is not known here"},
    {"a wrong type", form("correctable = \"no\"\n", kText),
     "a.toml:5: 'correctable' must be true or false"},
    {"a field type that is none", form("", field("word", "type = \"number\"")),
     "a.toml:6: type 'number' is not known"},
    {"a unit that is none",
     form("", field("q", "type = \"quantity\"\nunit = \"cups\"\npossible = [\"1\", \"2\"]")),
     "a.toml:6: unit 'cups' is not known"},
    {"a quantity without limits", form("", field("q", "type = \"quantity\"\nunit = \"ml\"")),
     "a.toml:6: 'possible' is missing"},
    {"a band of one end",
     form("", field("q", "type = \"quantity\"\nunit = \"ml\"\npossible = [\"1\"]")),
     "a.toml:6: 'possible' must hold two texts, lowest and highest"},
    {"a band of too many places",
     form("", field("q", "type = \"quantity\"\nunit = \"ml\"\npossible = [\"0.0001\", \"2\"]")),
     "a.toml:6: 'possible': '0.0001' is not a plain decimal number"},
    {"a band upside down",
     form("", field("q", "type = \"quantity\"\nunit = \"ml\"\npossible = [\"2\", \"1\"]")),
     "a.toml:6: field 'q': 'possible' is out of order"},
    {"a normal band upside down",
     form("", field("q",
                    "type = \"quantity\"\nunit = \"ml\"\npossible = [\"0\", \"9\"]\n"
                    "normal = [\"5\", \"4\"]")),
     "a.toml:6: field 'q': 'normal' is out of order"},
    {"normal beyond possible",
     form("", field("q",
                    "type = \"quantity\"\nunit = \"ml\"\npossible = [\"0\", \"9\"]\n"
                    "normal = [\"1\", \"10\"]")),
     "a.toml:6: field 'q': 'normal' reaches outside 'possible'"},
    {"a unit that cannot be kept exactly",
     form("", field("q", "type = \"quantity\"\nunit = \"psi\"\npossible = [\"0\", \"9\"]")),
     "a.toml:6: field 'q': thousandths of 'psi' cannot be kept exactly"},
    {"whole numbers between halves",
     form("", field("q",
                    "type = \"quantity\"\nunit = \"1\"\nwhole = true\n"
                    "possible = [\"0.5\", \"9\"]")),
     "a.toml:6: field 'q': a whole number needs a 'possible' of whole numbers"},
    {"an id without class", form("", field("x", "type = \"id\"")),
     "a.toml:6: an id names its 'class' or its 'class_field', one of the two"},
    {"an unknown class", form("", field("x", "type = \"id\"\nclass = \"ship\"")),
     "a.toml:6: class 'ship' is not known"},
    {"a class from nowhere", form("", field("x", "type = \"id\"\nclass_field = \"choice\"")),
     "a.toml:6: field 'x': 'class_field' names no earlier code field"},
    {"a class from other codes",
     form("", kChoice + field("x", "type = \"id\"\nclass_field = \"choice\"")),
     "a.toml:12: field 'x': 'one' of 'choice' is no class of the register"},
    {"a chapter of no list",
     form("", field("x", "type = \"id\"\nclass = \"container\"\nusual_chapters = [\"21\"]")),
     "a.toml:6: field 'x': '21' is no chapter of the List of Waste"},
    {"chapters of a thing that holds no waste",
     form("", field("x", "type = \"id\"\nclass = \"tool\"\nusual_chapters = [\"13\"]")),
     "a.toml:6: field 'x': 'usual_chapters' is for containers"},
    {"a code without options", form("", field("c", "type = \"code\"")),
     "a.toml:6: field 'c': a code needs 'options'"},
    {"the same code twice",
     form("", field("c",
                    "type = \"code\"\noptions = [{ code = \"x\", label = \"X\" }, "
                    "{ code = \"x\", label = \"Y\" }]")),
     "a.toml:6: field 'c': code 'x' stands twice"},
    {"a code in capitals",
     form("", field("c", "type = \"code\"\noptions = [{ code = \"Yes\", label = \"X\" }]")),
     "a.toml:6: field 'c': code 'Yes' is not lower-case letters, digits and hyphens"},
    {"an unknown format", form("", field("w", "type = \"text\"\nformat = \"email\"")),
     "a.toml:6: format 'email' is not known"},
    {"a text without end", form("", field("w", "type = \"text\"\nlength_max = 100000")),
     "a.toml:6: 'length_max' must be 1 to 2000"},
    {"a list without columns", form("", field("l", "type = \"list\"")),
     "a.toml:6: field 'l': a list needs 'columns'"},
    {"a list in a list",
     form("", field("l",
                    "type = \"list\"\n[[fields.columns]]\nname = \"m\"\nlabel = \"M\"\n"
                    "help = \"H\"\ntype = \"list\"")),
     "a.toml:6: field 'l': a list cannot hold a list"},
    {"a column twice",
     form("", field("l",
                    "type = \"list\"\n[[fields.columns]]\nname = \"m\"\nlabel = \"M\"\n"
                    "help = \"H\"\ntype = \"date\"\n[[fields.columns]]\nname = \"m\"\n"
                    "label = \"M\"\nhelp = \"H\"\ntype = \"date\"")),
     "a.toml:6: field 'l': column 'm' stands twice"},
    {"a column with conditions",
     form("", kChoice + field("l",
                              "type = \"list\"\n[[fields.columns]]\nname = \"m\"\n"
                              "label = \"M\"\nhelp = \"H\"\ntype = \"date\"\n"
                              "when = [{ field = \"choice\", codes = [\"one\"] }]")),
     "a.toml:12: field 'l': column 'm' cannot have conditions"},
    {"a field twice", form("", kText + kText), "a.toml:11: field 'word' stands twice"},
    {"a field named like a member of every entry", form("", field("reason", "type = \"text\"")),
     "a.toml:6: field 'reason': a name is lower-case words with underscores, and not a member"},
    {"a field name with a hyphen", form("", field("two-words", "type = \"text\"")),
     "a.toml:6: field 'two-words': a name is lower-case words with underscores"},
    {"a condition on nothing",
     form("", field("w", "type = \"text\"\nwhen = [{ field = \"nix\", codes = [\"one\"] }]")),
     "a.toml:6: condition on 'nix': there is no such field"},
    {"a condition on a later field",
     form("", field("w", "type = \"text\"\nwhen = [{ field = \"choice\", codes = [\"one\"] }]") +
                  kChoice),
     "a.toml:6: condition on 'choice': it must stand earlier"},
    {"a condition on text",
     form("",
          kText + field("w", "type = \"text\"\nwhen = [{ field = \"word\", codes = [\"x\"] }]")),
     "a.toml:11: condition on 'word': only code fields decide"},
    {"a condition on an unknown option",
     form("",
          kChoice +
              field("w", "type = \"text\"\nwhen = [{ field = \"choice\", codes = [\"six\"] }]")),
     "a.toml:12: condition on 'choice': it has no option 'six'"},
    {"a condition on no option",
     form("", kChoice + field("w", "type = \"text\"\nwhen = [{ field = \"choice\", codes = [] }]")),
     "a.toml:12: condition on 'choice': 'codes' is empty"},
    {"required twice over",
     form("", kChoice + field("w",
                              "type = \"text\"\nrequired = true\nrequired_when = "
                              "[{ field = \"choice\", codes = [\"one\"] }]")),
     "a.toml:12: field 'w': 'required' and 'required_when' exclude each other"},
    {"a retired field that is required",
     form("", field("w", "type = \"text\"\nrequired = true\nretired = true")),
     "a.toml:6: field 'w': a retired field cannot be required"},
    {"a field of a version to come", form("", field("w", "type = \"text\"\nsince = 2")),
     "a.toml:6: field 'w': 'since' must be 1 to the version of the form"},
    {"attachments of no number",
     form("", kText + "[attachments]\nlabel = \"L\"\nhelp = \"H\"\nmax = 0\n"),
     "a.toml:11: 'max' of the attachments must be 1 to 10"},
    {"too many attachments",
     form("", kText + "[attachments]\nlabel = \"L\"\nhelp = \"H\"\nmax = 11\n"),
     "a.toml:11: 'max' of the attachments must be 1 to 10"},
    {"attachments without a label", form("", kText + "[attachments]\nhelp = \"H\"\n"),
     "a.toml:11: 'label' is missing"},
    {"attachments of a kind",
     form("", kText + "[attachments]\nlabel = \"L\"\nhelp = \"H\"\nkind = 1\n"),
     "a.toml:14: 'kind' is not known here"},
    {"a group of one", form("", kText + "[[at_least_one]]\nfields = [\"word\"]\n"),
     "a.toml:11: 'at_least_one' needs two fields or more"},
    {"a group with a stranger",
     form("", kText + "[[at_least_one]]\nfields = [\"word\", \"nix\"]\n"),
     "a.toml:11: 'at_least_one' names no field: 'nix'"},
    {"a role of persons that is none", form("cautions = [\"Big Danger\"]\n", kText),
     "a.toml:1: caution 'Big Danger' is no id"},
    {"no fields", form("", ""), "a.toml:1: a form needs fields"},
    {"no effect", form("", kText, ""), "a.toml:1: a form needs an effect, at least 'notes'"},
    {"an unknown effect", form("", kText, effect("effect = \"eats\"")),
     "a.toml:11: effect 'eats' is not known; there are adds, moves, takes, reads, checks"},
    {"an unknown role",
     form("", kContainer, effect("effect = \"notes\"\nroles = { tool = \"container\" }")),
     "a.toml:12: effect 'notes' has no role 'tool'"},
    {"a note about what is no thing",
     form("", kText, effect("effect = \"notes\"\nroles = { thing = \"word\" }")),
     "effect 'notes' role 'thing' cannot be played by 'word'"},
    {"keeping no field", form("", kText, effect("effect = \"notes\"\nkeeps = [\"other\"]")),
     "effect 'notes' keeps no such field: 'other'"},
    {"keeping where nothing is told",
     form("", kContainer,
          effect(
              "effect = \"adds\"\nroles = { container = \"container\" }\nkeeps = [\"container\"]")),
     "effect 'adds' keeps no fields"},
    {"withdrawing without a competence",
     form("", kContainer + kResult,
          effect("effect = \"checks\"\nroles = { thing = \"container\", outcome = \"result\" }")),
     "effect 'checks' needs a competence, for its outcome"},
    {"a competence where nothing is withdrawn",
     form("", kText, effect("effect = \"notes\"\ncompetence = \"gauges\"")),
     "effect 'notes' takes no competence"},
    {"a competence that the register does not know",
     form("", kContainer + kResult,
          effect("effect = \"checks\"\nroles = { thing = \"container\", outcome = \"result\" }\n"
                 "competence = \"gauges\"")),
     "competence 'gauges' is not in the register's list"},
    {"a role left out", form("", kContainer, effect("effect = \"adds\"")),
     "a.toml:12: effect 'adds' needs the role 'container'"},
    {"a role by a missing field",
     form("", kContainer, effect("effect = \"adds\"\nroles = { container = \"drum\" }")),
     "a.toml:12: effect 'adds' role 'container' names no field: 'drum'"},
    {"a role by a field of another type",
     form("", kText, effect("effect = \"adds\"\nroles = { container = \"word\" }")),
     "a.toml:11: effect 'adds' role 'container' cannot be played by 'word'"},
    {"a tense of a word", form("", field("w", "type = \"text\"\ntense = \"past\"")),
     "field 'w': 'tense' is for dates and months"},
    {"a tense that is none", form("", field("w", "type = \"date\"\ntense = \"once\"")),
     "'tense' must be past or future"},
    {"a number of days between numbers",
     form("", field("w", "type = \"quantity\"\nunit = \"bar\"\npossible = [\"0\", \"1\"]") +
                  field("v", "type = \"quantity\"\nunit = \"bar\"\npossible = [\"0\", \"1\"]") +
                  "[[in_order]]\nfields = [\"w\", \"v\"]\ndays_max = 2\n"),
     "has 'days_max' and compares what is no date: 'w'"},
    {"a role by codes it does not know",
     form("", kContainer + kChoice,
          effect("effect = \"handles\"\nroles = { container = \"container\", act = \"choice\" }")),
     "a.toml:18: effect 'handles' role 'act' cannot be played by 'choice'"},
    {"a required role by an optional field",
     form("", kContainer, effect("effect = \"adds\"\nroles = { container = \"container\" }")),
     "a.toml:12: effect 'adds' role 'container' may be empty: 'container' is not always required"},
    {"a required role by a field that applies at other times",
     form("",
          kChoice + field("container",
                          "type = \"id\"\nclass = \"container\"\n"
                          "required = true\nwhen = [{ field = \"choice\", "
                          "codes = [\"one\"] }]"),
          effect("effect = \"adds\"\nwhen = [{ field = \"choice\", codes = [\"two\"] }]\n"
                 "roles = { container = \"container\" }")),
     "a.toml:20: effect 'adds' role 'container' may be empty"},
};

TEST(Catalog, NamesFileLineAndReasonOfEveryFault) {
  for (const FaultCase& test : kFaultCases) {
    EXPECT_THAT(faults_of(test.toml), HasSubstr(test.fault)) << test.what;
  }
}

TEST(Catalog, NamesAllFaultsOfAllFilesAtOnce) {
  const std::string first = form("", field("Word", "type = \"text\"") + kText + kText);
  const std::string second = "kind = \"b\"\n";
  const auto loaded =
      Catalog::load({{"forms/definitions/a.toml", first}, {"forms/definitions/b.toml", second}});
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(base::format_faults(loaded.error()),
            "forms/definitions/a.toml:6: field 'Word': a name is lower-case words with "
            "underscores, and not a member of every entry\n"
            "forms/definitions/a.toml:16: field 'word' stands twice\n"
            "forms/definitions/b.toml:1: 'title' is missing\n"
            "forms/definitions/b.toml:1: 'purpose' is missing\n");
}

TEST(Catalog, WantsAKindInTheFileOfItsName) {
  EXPECT_THAT(faults_of(form("", kText), "forms/definitions/b.toml"),
              HasSubstr("b.toml:1: kind 'a' must stand in a file of that name"));
}

TEST(Catalog, WantsAKindDefinedOnce) {
  const std::string toml = form("", kText);
  const auto loaded =
      Catalog::load({{"forms/definitions/a.toml", toml}, {"forms/definitions/old/a.toml", toml}});
  ASSERT_FALSE(loaded.ok());
  EXPECT_THAT(base::format_faults(loaded.error()), HasSubstr("kind 'a' is defined twice"));
}

std::string as_kind(std::string toml, const std::string& kind) {
  return toml.replace(toml.find("\"a\""), 3, "\"" + kind + "\"");
}

TEST(Catalog, RefusesANameWithAnotherMeaningInAnotherKind) {
  const std::array<std::pair<std::string, std::string>, 5> pairs{{
      {field("x", "type = \"text\""), field("x", "type = \"date\"")},
      {field("x", "type = \"quantity\"\nunit = \"ml\"\npossible = [\"0\", \"1\"]"),
       field("x", "type = \"quantity\"\nunit = \"l\"\npossible = [\"0\", \"1\"]")},
      {field("x", "type = \"id\"\nclass = \"tool\""),
       field("x", "type = \"id\"\nclass = \"gauge\"")},
      {field("x", "type = \"code\"\noptions = [{ code = \"yes\", label = \"Yes\" }]"),
       field("x", "type = \"code\"\noptions = [{ code = \"no\", label = \"No\" }]")},
      {field("x", "type = \"text\""), field("x", "type = \"text\"\nformat = \"month\"")},
  }};
  const std::array<const char*, 5> differing{"type", "unit", "class", "options", "format"};
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const std::string first = form("", pairs[i].first);
    const std::string second = as_kind(form("", pairs[i].second), "b");
    const auto loaded =
        Catalog::load({{"forms/definitions/a.toml", first}, {"forms/definitions/b.toml", second}});
    ASSERT_FALSE(loaded.ok()) << differing[i];
    EXPECT_EQ(base::format_faults(loaded.error()),
              "forms/definitions/b.toml:6: field 'x' has another " + std::string(differing[i]) +
                  " than in forms/definitions/a.toml:6\n");
  }
}

TEST(Catalog, KeepsTheNamesOfCorrectionsForThemselves) {
  const std::string other = form("", field("action", "type = \"text\""));
  const std::string correction =
      as_kind(form("", field("action", "type = \"text\"")), "correction");
  const auto loaded = Catalog::load(
      {{"forms/definitions/a.toml", other}, {"forms/definitions/correction.toml", correction}});
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(base::format_faults(loaded.error()),
            "forms/definitions/a.toml:6: field 'action' belongs to corrections alone\n");
}

TEST(Catalog, LetsALaterVersionAddOnlyOptionalFields) {
  const std::string head =
      "kind = \"a\"\nversion = 2\ntitle = \"A\"\npurpose = \"P\"\n"
      "roles_allowed = [\"manager\"]\n";
  const std::string notes = "[[effects]]\neffect = \"notes\"\n";
  EXPECT_EQ(faults_of(head + field("w", "type = \"text\"\nsince = 2") + notes), "");
  EXPECT_THAT(faults_of(head + field("w", "type = \"text\"\nsince = 2\nrequired = true") + notes),
              HasSubstr("a field of a later version must be optional"));
}

}  // namespace
}  // namespace benchwarden::forms
