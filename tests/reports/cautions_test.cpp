#include "reports/cautions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>
#include <set>

#include "reports/fixture.h"

namespace benchwarden::reports {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

const std::string kGood =
    "id = \"c\"\ntitle = \"T\"\nsentences = [\"S\"]\nkinds = [\"k\"]\nsources = [\"memory\"]\n";

std::string faults_of(const std::string& text,
                      const std::string& path = "reports/cautions/c.toml") {
  const auto loaded = Cautions::load({{path, text}});
  return loaded ? "" : base::format_faults(loaded.error());
}

std::string without(const std::string& line) {
  std::string text = kGood;
  const std::size_t place = text.find(line);
  EXPECT_NE(place, std::string::npos);
  return text.erase(place, line.size());
}

std::vector<std::string> ids(const std::vector<const Caution*>& cautions) {
  std::vector<std::string> all;
  for (const Caution* caution : cautions) all.push_back(caution->id);
  return all;
}

/// Caution ids as each form names them, read without the forms' own code.
std::set<std::string> named_by_form(const base::DataFile& file, std::string& kind) {
  const auto table = base::parse_toml(file.bytes, file.path);
  kind = table->members.at("kind").text;
  std::set<std::string> named;
  const auto found = table->members.find("cautions");
  if (found == table->members.end()) return named;
  for (const base::Toml& item : found->second.items) named.insert(item.text);
  return named;
}

TEST(Cautions, AreThoseOfTheTrade) {
  std::vector<std::string> all;
  for (const Caution& caution : project_data().cautions.all()) all.push_back(caution.id);
  EXPECT_THAT(all,
              ElementsAre("cylinder-moving", "flammable-vapour", "high-pressure-gas", "inert-gas",
                          "needle-injection", "nitrogen-asphyxiation", "pressurised-parts",
                          "self-heating-rags", "unnamed-content", "used-oil-skin"));
}

TEST(Cautions, DeferToRulesMakersDataSheetsAndCompetentPersons) {
  for (const Caution& caution : project_data().cautions.all()) {
    EXPECT_EQ(caution.sentences.back(),
              "Local rules, the maker's instructions, the safety data sheet and competent persons "
              "come before these words.")
        << caution.id;
    EXPECT_GE(caution.sentences.size(), 3U) << caution.id;
  }
}

TEST(Cautions, NeverCallAnythingSafeOkOrCompliant) {
  const std::regex verdict("\\b(safe|safely|ok|okay|compliant)\\b", std::regex::icase);
  for (const Caution& caution : project_data().cautions.all()) {
    for (const std::string& sentence : caution.sentences) {
      EXPECT_FALSE(std::regex_search(sentence, verdict)) << sentence;
    }
    for (const std::string& source : caution.sources) {
      EXPECT_FALSE(std::regex_search(source, verdict)) << source;
    }
  }
  const std::string wording(project_files("reports/wording/en.toml").at(0).bytes);
  EXPECT_FALSE(std::regex_search(wording, verdict));
}

TEST(Cautions, SayWhereEachComesFrom) {
  const std::regex admitted("no source|from memory|\\d");
  for (const Caution& caution : project_data().cautions.all()) {
    for (const std::string& source : caution.sources) {
      EXPECT_TRUE(std::regex_search(source, admitted)) << caution.id << ": " << source;
    }
  }
}

TEST(Cautions, AreTheOnesTheFormsName) {
  for (const base::DataFile& file : project_files("forms/definitions/")) {
    std::string kind;
    const std::set<std::string> named = named_by_form(file, kind);
    const std::vector<std::string> brought = ids(project_data().cautions.for_kind(kind));
    EXPECT_EQ(std::set<std::string>(brought.begin(), brought.end()), named) << file.path;
  }
}

TEST(Cautions, UsedOilSkinComesWithDraining) {
  EXPECT_THAT(ids(project_data().cautions.for_kind("oil-drained")),
              ElementsAre("pressurised-parts", "used-oil-skin"));
  EXPECT_THAT(project_data().cautions.find("used-oil-skin")->reports,
              testing::IsSupersetOf(
                  {"collection-sheet", "label", "waste-month", "waste-year", "walk-round-sheet"}));
}

TEST(Cautions, SelfHeatingRagsAndFlammableVapourComeWithTheRagBin) {
  EXPECT_THAT(ids(project_data().cautions.for_kind("rag-bin")),
              ElementsAre("flammable-vapour", "self-heating-rags", "used-oil-skin"));
  EXPECT_THAT(project_data().cautions.find("self-heating-rags")->sources.front(),
              HasSubstr("29 CFR 1910.106(e)(9)(iii)"));
}

TEST(Cautions, HighPressureGasNitrogenAsphyxiationAndCylinderMovingComeWithACylinder) {
  EXPECT_THAT(ids(project_data().cautions.for_kind("cylinder-check")),
              ElementsAre("cylinder-moving", "high-pressure-gas", "nitrogen-asphyxiation"));
}

TEST(Cautions, NeedleInjectionAndPressurisedPartsComeWithATool) {
  EXPECT_THAT(ids(project_data().cautions.for_kind("tool-inspection")),
              ElementsAre("high-pressure-gas", "needle-injection", "pressurised-parts"));
}

TEST(Cautions, ComeWithTheHazardWhereverItIs) {
  EXPECT_THAT(ids(project_data().cautions.for_kind("solvent-waste")),
              ElementsAre("flammable-vapour"));
  EXPECT_THAT(ids(project_data().cautions.for_kind("cylinder-change")),
              ElementsAre("cylinder-moving", "high-pressure-gas", "nitrogen-asphyxiation"));
  EXPECT_THAT(ids(project_data().cautions.for_kind("gas-use")),
              ElementsAre("high-pressure-gas", "needle-injection", "pressurised-parts"));
  EXPECT_THAT(ids(project_data().cautions.for_kind("stuck-part")),
              ElementsAre("high-pressure-gas", "pressurised-parts"));
}

TEST(Cautions, StopTheStartWhereAnythingIsMissing) {
  EXPECT_EQ(faults_of(kGood), "");
  EXPECT_THAT(faults_of(without("title = \"T\"\n")), HasSubstr("'title' is missing"));
  EXPECT_THAT(faults_of(without("sentences = [\"S\"]\n")), HasSubstr("'sentences' must hold"));
  EXPECT_THAT(faults_of(without("sources = [\"memory\"]\n")), HasSubstr("'sources' must hold"));
  EXPECT_THAT(faults_of(without("kinds = [\"k\"]\n")), HasSubstr("nothing brings this caution up"));
  EXPECT_THAT(faults_of(kGood + "colour = \"red\"\n"), HasSubstr("'colour' is not known here"));
  EXPECT_THAT(faults_of(kGood, "reports/cautions/d.toml"), HasSubstr("named after its id"));
  EXPECT_THAT(faults_of("id = "), HasSubstr("reports/cautions/c.toml:1"));
}

TEST(Cautions, AreBroughtUpByScreensToo) {
  const std::string text = kGood + "screens = [\"home\"]\n";
  const auto loaded = Cautions::load({{"reports/cautions/c.toml", text}});
  ASSERT_TRUE(loaded.ok());
  EXPECT_THAT(ids(loaded->for_screen("home")), ElementsAre("c"));
  EXPECT_TRUE(loaded->for_screen("other").empty());
  EXPECT_EQ(loaded->find("d"), nullptr);
}

TEST(Cautions, OfALabelAreThoseOfWhatItHoldsElseTheGeneralOne) {
  const Cautions& cautions = project_data().cautions;
  EXPECT_THAT(ids(cautions.for_label("cylinder", "nitrogen")),
              ElementsAre("high-pressure-gas", "nitrogen-asphyxiation"));
  EXPECT_THAT(ids(cautions.for_label("cylinder", "argon")),
              ElementsAre("high-pressure-gas", "inert-gas"));
  for (const char* gas : {"other", ""}) {
    EXPECT_THAT(ids(cautions.for_label("cylinder", gas)),
                ElementsAre("high-pressure-gas", "unnamed-content"));
  }
  for (const char* waste : {"packaging", "other", "", "acute"}) {
    EXPECT_THAT(ids(cautions.for_label("container", waste)), ElementsAre("unnamed-content"));
  }
  EXPECT_THAT(ids(cautions.for_label("container", "spent-solvent")),
              ElementsAre("flammable-vapour"));
  EXPECT_THAT(ids(cautions.for_label("tool", "")), ElementsAre("high-pressure-gas"));
}

TEST(Cautions, LeaveTheEmergencyPageToItsOwnReader) {
  const auto loaded = Cautions::load({{"reports/cautions/emergency.toml", "title = \"E\"\n"}});
  ASSERT_TRUE(loaded.ok());
  EXPECT_TRUE(loaded->all().empty());
}

}  // namespace
}  // namespace benchwarden::reports
