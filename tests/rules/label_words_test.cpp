#include "rules/label_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "rules/rule_pack.h"
#include "tallies/state_builder.h"

namespace benchwarden::rules {
namespace {

using tallies::code_field;
using tallies::enters;
using tallies::text_field;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::string kLabelHead =
    "pack = \"local\"\ntitle = \"Local\"\nedition = \"2026-11-25\"\nremarks = \"None.\"\n";

std::string label_rule(const std::string& id, const std::string& about, const std::string& more) {
  return "[[rules]]\nid = \"" + id +
         "\"\nkind = \"recorded-item\"\ncitation = \"our permit\"\nedition = \"2026\"\n"
         "confidence = \"text-seen\"\nsentence = \"Marked.\"\n"
         "settings = { about = \"" +
         about +
         "\", kind = \"container-inspection\", field = \"label_legible\", codes = \"no\", item = "
         "\"label\" }\n" +
         more;
}

std::string label_faults(const std::string& toml) {
  const auto pack = read_pack(toml, "local.toml");
  return pack ? "" : base::format_faults(pack.error());
}

RulePack federal() {
  std::ifstream file(BENCHWARDEN_TOP "/reports/rules/packs/us-federal.toml");
  std::stringstream text;
  text << file.rdbuf();
  auto pack = read_pack(text.str(), "us-federal.toml");
  EXPECT_TRUE(pack.ok()) << base::format_faults(pack.error());
  return *std::move(pack);
}

/// Containers whose streams are of these kinds of waste, in a workshop of this category.
entries::Effects labelled_workshop(const std::string& category) {
  entries::Effects effects;
  effects.push_back(enters("workshop", "site", {code_field("generator_category", category)}));
  for (const char* type : {"used-oil", "spent-solvent", "solvent-wipes"}) {
    effects.push_back(enters("stream", type,
                             {code_field("counted_by", "volume"), code_field("hazardous", "yes"),
                              code_field("waste_type", type)}));
    effects.push_back(enters(
        "container", type, {code_field("counts_waste", "yes"), tallies::id_field("stream", type)}));
  }
  return effects;
}

std::vector<std::string> words_on(const std::string& container, const tallies::State& state,
                                  const std::vector<const RulePack*>& packs) {
  const Scene scene(state, base::parse_rfc3339("2026-11-25T12:00:00Z")->instant,
                    *base::Zone::find("UTC"));
  std::vector<std::string> words;
  for (const LabelWords& one :
       label_words(RuleBook::stacked(packs), scene, {"container", container})) {
    words.push_back(one.words + " | " + one.authority.citation);
  }
  return words;
}

TEST(LabelWordsInPacks, AreReadOfRulesAboutContainersAlone) {
  EXPECT_EQ(
      label_faults(kLabelHead + label_rule("own.a", "container", "label_words = \"Old Oil\"\n")),
      "");
  EXPECT_THAT(label_faults(kLabelHead + label_rule("own.a", "cylinder", "label_words = \"Gas\"\n")),
              HasSubstr("label_words: accepted only of a rule about a container"));
}

TEST(LabelWordsInPacks, AreATextOfSixtySignsAtMost) {
  const auto fault = [](const std::string& words) {
    return label_faults(kLabelHead +
                        label_rule("own.a", "container", "label_words = \"" + words + "\"\n"));
  };
  EXPECT_EQ(fault(std::string(60, 'a')), "");
  EXPECT_THAT(fault(std::string(61, 'a')),
              HasSubstr("label_words has 61 signs, accepted: 1 to 60"));
  EXPECT_THAT(fault(""), HasSubstr("label_words is blank"));
  EXPECT_THAT(fault("Used\\nOil"), HasSubstr("label_words holds the hidden sign U+000A"));
}

// 40 CFR 279.22(c), 262.16(b)(6)(i) and 261.4(a)(26)(i), (b)(18)(i), by the citations in the pack.
TEST(LabelWords, AreThoseOfTheUnitedStatesByWhatIsInTheContainer) {
  const tallies::BookUnderTest book(labelled_workshop("sqg"));
  const RulePack pack = federal();
  EXPECT_THAT(words_on("used-oil", book.state(), {&pack}),
              ElementsAre("Used Oil | 40 CFR 279.22(c)"));
  EXPECT_THAT(words_on("spent-solvent", book.state(), {&pack}),
              ElementsAre(HasSubstr("Hazardous Waste | 40 CFR 262.16(b)(6)(i)")));
  EXPECT_THAT(words_on("solvent-wipes", book.state(), {&pack}),
              ElementsAre(HasSubstr("Excluded Solvent-Contaminated Wipes | 40 CFR 261.4(a)(26)")));
}

TEST(LabelWords, OfHazardousWasteAreNotAskedOfVerySmallGenerators) {
  const tallies::BookUnderTest book(labelled_workshop("vsqg"));
  const RulePack pack = federal();
  EXPECT_THAT(words_on("spent-solvent", book.state(), {&pack}), IsEmpty());
  EXPECT_THAT(words_on("used-oil", book.state(), {&pack}), ElementsAre(HasSubstr("Used Oil")));
}

TEST(LabelWords, OfOilAsSuchStandFirstWhereATestPresumesItHazardous) {
  tallies::BookUnderTest book(labelled_workshop("sqg"));
  book.enter(
      tallies::at("2026-10-01T08:00:00Z"),
      {tallies::adds("used-oil", tallies::ml(5000)),
       entries::Notes{"container",
                      "used-oil",
                      {"oil-test", {tallies::number_field("halogens_ppm", 1'001'000, "ppm")}}}});
  const RulePack pack = federal();
  const auto words = words_on("used-oil", book.state(), {&pack});
  ASSERT_EQ(words.size(), 2U);
  EXPECT_THAT(words[0], HasSubstr("Used Oil"));
  EXPECT_THAT(words[1], HasSubstr("Hazardous Waste"));
}

TEST(LabelWords, MayBeAWorkshopsOwnInThePlaceOfARuleBelow) {
  const tallies::BookUnderTest book(labelled_workshop("sqg"));
  const RulePack base_pack = federal();
  const auto own = read_pack(
      kLabelHead +
          label_rule("us.oil.label", "container",
                     "label_words = \"Used Oil, bench\"\napplies = [{ of = \"stream\", field = "
                     "\"waste_type\", codes = [\"used-oil\"] }]\n"),
      "local.toml");
  ASSERT_TRUE(own.ok()) << base::format_faults(own.error());
  EXPECT_THAT(words_on("used-oil", book.state(), {&base_pack, &*own}),
              ElementsAre("Used Oil, bench | our permit"));
}

TEST(LabelWords, StandOnceWhereTwoRulesAskForThem) {
  const tallies::BookUnderTest book(labelled_workshop("sqg"));
  const auto own =
      read_pack(kLabelHead + label_rule("own.a", "container", "label_words = \"Oil\"\n") +
                    label_rule("own.b", "container", "label_words = \"Oil\"\n") +
                    label_rule("own.c", "container", "label_words = \"Keep shut\"\n"),
                "local.toml");
  ASSERT_TRUE(own.ok()) << base::format_faults(own.error());
  EXPECT_THAT(words_on("used-oil", book.state(), {&*own}),
              ElementsAre("Oil | our permit", "Keep shut | our permit"));
}

}  // namespace
}  // namespace benchwarden::rules
