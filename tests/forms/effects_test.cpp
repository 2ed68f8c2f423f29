#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "world.h"

namespace benchwarden::forms {
namespace {

using entries::Amount;
using entries::Effect;
using quantities::Microlitres;
using quantities::Milligrams;
using testing::ElementsAre;

entries::Content content_of(const std::string& sample_name) {
  for (const Sample& sample : samples()) {
    if (sample.name != sample_name) continue;
    World world;
    world.role = sample.role;
    return accept(sample.submission, world);
  }
  ADD_FAILURE() << "no sample " << sample_name;
  return {};
}

entries::Effects effects(const std::string& sample_name) {
  return effects_of(real_catalog(), content_of(sample_name));
}

std::vector<std::string> subjects(const std::string& sample_name) {
  return subjects_of(real_catalog(), content_of(sample_name));
}

/// What the tallies keep of a kind that does not say what it keeps.
entries::Told told(const std::string& sample_name) {
  const entries::Content content = content_of(sample_name);
  entries::Told told{content.kind, content.fields};
  std::erase_if(told.fields, [&](const entries::Field& field) {
    return is_free_text(*find_field(*real_catalog().find(content.kind), field.name));
  });
  return told;
}

Amount litres(std::int64_t microlitres) { return {Microlitres(microlitres), std::nullopt}; }
Amount mass(std::int64_t milligrams) { return {std::nullopt, Milligrams(milligrams)}; }

/// Of that, these fields, all of them told.
entries::Told told_only(const std::string& sample_name, const std::vector<std::string>& names) {
  entries::Told kept = told(sample_name);
  std::erase_if(kept.fields, [&](const entries::Field& field) {
    return std::find(names.begin(), names.end(), field.name) == names.end();
  });
  EXPECT_EQ(kept.fields.size(), names.size());
  return kept;
}

TEST(Effects, OfADrainAddIntoItsContainer) {
  const auto kept = told_only("drain", {"fluid", "unit_count", "contamination"});
  EXPECT_THAT(effects("drain"), ElementsAre(Effect(entries::Adds{"w1", litres(62'500)}),
                                            Effect(entries::Notes{"container", "w1", kept})));
}

TEST(Effects, OfTheRagBinDependOnWhatWasDone) {
  const auto added = told_only("rags-added", {"bin_act", "contaminant"});
  EXPECT_THAT(effects("rags-added"),
              ElementsAre(Effect(entries::Adds{"rag-bin", {}}),
                          Effect(entries::Notes{"container", "rag-bin", added})));
  EXPECT_THAT(effects("rags-checked"),
              ElementsAre(Effect(entries::Notes{"container", "rag-bin", told("rags-checked")})));
  const auto emptied = told_only("rags-emptied", {"bin_act"});
  EXPECT_THAT(effects("rags-emptied"),
              ElementsAre(Effect(entries::Handles{"rag-bin", entries::ContainerAct::kEmptied}),
                          Effect(entries::Adds{"rag-drum", mass(3'250'000)}),
                          Effect(entries::Notes{"container", "rag-drum", emptied})));
}

TEST(Effects, OfAnAnswerConfirmTheEntriesItNames) {
  EXPECT_THAT(effects("confirmed"),
              ElementsAre(Effect(entries::Confirms{{3, 4}, entries::Authorship::kNotMine})));
}

TEST(Effects, OfATransferMoveAllOrAPart) {
  EXPECT_THAT(effects("transfer"), ElementsAre(Effect(entries::Moves{"w2", "w1", {}})));
  // 5 US gal = 18 927.058 92 mL, kept to the thousandth of a millilitre.
  EXPECT_THAT(effects("transfer-part"),
              ElementsAre(Effect(entries::Moves{"w2", "w1", litres(18'927'059)})));
}

TEST(Effects, OfReadingsReadTheContainer) {
  EXPECT_THAT(effects("dip"), ElementsAre(Effect(entries::Reads{"w1", litres(96'500'000)})));
  // 180.5 lb = 81.873 423 ... kg
  EXPECT_THAT(effects("weighing"), ElementsAre(Effect(entries::Reads{"w1", mass(81'873'000)})));
}

TEST(Effects, OfACollectionTellItsStageAndLoads) {
  using entries::CollectionStage;
  EXPECT_THAT(
      effects("planned"),
      ElementsAre(Effect(entries::Takes{"c-2026-12", CollectionStage::kPlanned, "c1", "", {}})));
  EXPECT_THAT(effects("taken"),
              ElementsAre(Effect(entries::Takes{
                  "c-2026-12",
                  CollectionStage::kTaken,
                  "c1",
                  "N 4711",
                  {{"w3", litres(190'000'000), true}, {"rag-drum", mass(42'500'000), false}}})));
  EXPECT_THAT(effects("returned"),
              ElementsAre(Effect(entries::Takes{
                  "c-2026-11", CollectionStage::kDocumentReturned, "", "N 4711", {}})));
}

TEST(Effects, OfChecksTellClassThingAndOutcome) {
  using entries::Outcome;
  EXPECT_THAT(
      effects("cylinder"),
      ElementsAre(Effect(entries::Checks{"cylinder", "n1", Outcome::kPassed, told("cylinder")})));
  EXPECT_THAT(
      effects("inspection"),
      ElementsAre(Effect(entries::Checks{"tool", "r1", Outcome::kPassed, told("inspection")})));
  EXPECT_THAT(effects("gauge-inspection"),
              ElementsAre(Effect(
                  entries::Checks{"gauge", "g1", Outcome::kWithdrawn, told("gauge-inspection")})));
  const auto plain =
      accept(submit("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":150})"), World());
  EXPECT_THAT(effects_of(real_catalog(), plain),
              ElementsAre(Effect(entries::Checks{
                  "cylinder", "n1", Outcome::kRecorded, {"cylinder-check", plain.fields}})));
}

TEST(Effects, OfRegisterChangesCarryTheAttributes) {
  const auto all = effects("changed");
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0], Effect(entries::Changes{"container",
                                            "w1",
                                            entries::RegisterAct::kChanged,
                                            {{"location", entries::Text{"Bay 3"}}}}));
  EXPECT_THAT(
      effects("retired"),
      ElementsAre(Effect(entries::Changes{"container", "w2", entries::RegisterAct::kRetired, {}})));
}

TEST(Effects, OfContainerChangesHandleIt) {
  using entries::ContainerAct;
  EXPECT_THAT(effects("sealed"),
              ElementsAre(Effect(entries::Handles{"w1", ContainerAct::kSealed})));
  EXPECT_THAT(effects("swapped"),
              ElementsAre(Effect(entries::Handles{"w3", ContainerAct::kSwapped})));
}

TEST(Effects, OfSolventAddAndTellWhatItIs) {
  const entries::Effects all = effects("solvent");
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0], Effect(entries::Adds{"w1", litres(2'000'000)}));
  const auto& notes = std::get<entries::Notes>(all[1]);
  EXPECT_EQ(notes.told.fields, (entries::Fields{{"contamination", entries::Code{"water"}},
                                                {"solvent", entries::Code{"hydrocarbon"}},
                                                {"source", entries::Code{"parts-wash"}}}));
}

/// "stuck-part/s9" and the number of fields kept, of the only effect, a note.
std::string noted(const std::string& sample_name) {
  const entries::Effects all = effects(sample_name);
  if (all.size() != 1 || !std::holds_alternative<entries::Notes>(all[0])) return "no single note";
  const auto& notes = std::get<entries::Notes>(all[0]);
  return notes.thing_class + "/" + notes.thing + " " + std::to_string(notes.told.fields.size());
}

TEST(Effects, OfNotesTellWhichThingAndKeepWhatRulesGoBy) {
  EXPECT_EQ(noted("oil-tested"), "container/w1 8");
  EXPECT_EQ(noted("stream-tested"), "stream/oil 4");
  EXPECT_EQ(noted("determined"), "stream/oil 4");
  EXPECT_EQ(noted("fitted"), "cylinder/n1 6");
  EXPECT_EQ(noted("charged"), "cylinder/n1 5");
  EXPECT_EQ(noted("counted"), "cabinet/k1 4");
  EXPECT_EQ(noted("stuck-opened"), "stuck-part/s9 8");
  EXPECT_EQ(noted("spilled"), "event/e9 7");
  EXPECT_EQ(noted("acted"), "event/e1 3");
  EXPECT_EQ(noted("finding-acted"), "/ 3");
  EXPECT_EQ(noted("briefed"), "person/p2 4");
  EXPECT_EQ(noted("acknowledged"), "/ 2");
  EXPECT_EQ(noted("held"), "/ 3");
  EXPECT_EQ(noted("adopted"), "/ 4");
  EXPECT_EQ(noted("walked"), "/ 9");
  EXPECT_EQ(noted("month-closed"), "/ 3");
}

TEST(Effects, OfAnUnknownKindAreNone) {
  entries::Content content;
  content.kind = "unheard-of";
  EXPECT_TRUE(effects_of(real_catalog(), content).empty());
  EXPECT_TRUE(subjects_of(real_catalog(), content).empty());
}

TEST(Subjects, AreTheThingsNamedEachOnce) {
  EXPECT_THAT(subjects("drain"), ElementsAre("container/w1"));
  EXPECT_THAT(subjects("rags-emptied"), ElementsAre("container/rag-bin", "container/rag-drum"));
  EXPECT_THAT(subjects("taken"), ElementsAre("carrier/c1", "collection/c-2026-12",
                                             "container/rag-drum", "container/w3"));
  EXPECT_THAT(subjects("cylinder"), ElementsAre("cylinder/n1", "gauge/g1"));
  EXPECT_THAT(subjects("container-added"), ElementsAre("container/w9", "stream/oil"));
}

}  // namespace
}  // namespace benchwarden::forms
