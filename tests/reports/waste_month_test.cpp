#include "reports/waste_month.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/fixture.h"
#include "reports/mass_figure.h"

namespace benchwarden::reports {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const ContainerFigures& container(const WasteMonthFigures& figures, const std::string& id) {
  return *std::find_if(figures.containers.begin(), figures.containers.end(),
                       [&](const ContainerFigures& container) { return container.id == id; });
}

std::vector<std::uint64_t> seqs(const std::vector<EntryFigures>& entries) {
  std::vector<std::uint64_t> all;
  for (const EntryFigures& entry : entries) all.push_back(entry.seq);
  return all;
}

// By hand: 62 (corrected from 620) + 350.5 + 100 + 40 mL arose; 5 L were collected; w1 keeps
// 10 000 + 62 + 100 + 200 - 5 000 = 5 362 mL and w2 350.5 - 200 + 40 = 190.5 mL.
TEST(WasteMonth, SumsEachStreamAndComputesMassOnceFromTheSum) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  ASSERT_EQ(figures.streams.size(), 2U);
  const StreamFigures& oil = figures.streams[0];
  EXPECT_EQ(oil.facts.low_code, "13 01 10");
  EXPECT_EQ(oil.arisen, 552'500);
  EXPECT_EQ(oil.arisen_mass, 481'000);  // 0.5525 L at 870 kg/m³ = 0.480675 kg
  EXPECT_EQ(oil.collected, 5'000'000);
  EXPECT_EQ(oil.collected_mass, 4'350'000);
  EXPECT_EQ(oil.standing, 5'552'500);
  EXPECT_EQ(oil.standing_mass, 4'831'000);  // 4.830675 kg
  EXPECT_EQ(oil.density_source, "maker's data sheet");
  const StreamFigures& rags = figures.streams[1];
  EXPECT_EQ(rags.arisen_mass, 1'250'000);
  EXPECT_EQ(figures.hazardous.arisen, 1'731'000);
  EXPECT_EQ(figures.hazardous.standing, 6'081'000);
  EXPECT_EQ(figures.other.arisen, 0);
}

TEST(WasteMonth, ClosesEachContainerExactly) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  ASSERT_EQ(figures.containers.size(), 4U);
  EXPECT_EQ(
      container(figures, "w1").movement,
      (tallies::Movement{10'000'000, 820'000, 200'000, 0, 5'000'000, 0, -658'000, 5'362'000}));
  EXPECT_EQ(container(figures, "w2").movement,
            (tallies::Movement{0, 390'500, 0, 200'000, 0, 0, 0, 190'500}));
  for (const ContainerFigures& each : figures.containers) {
    const tallies::Movement& m = each.movement;
    EXPECT_EQ(m.opening + m.added + m.moved_in - m.moved_out - m.taken - m.emptied + m.corrections,
              m.closing)
        << each.id;
    EXPECT_EQ(m.closing, each.amount) << each.id;
  }
}

TEST(WasteMonth, SaysWhatStandsWhere) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  const ContainerFigures& w1 = container(figures, "w1");
  EXPECT_EQ(w1.amount, 5'362'000);
  EXPECT_EQ(w1.mass, 4'665'000);     // 4.66494 kg
  EXPECT_EQ(w1.limit_permille, 29);  // of 205 L * 90 % = 184.5 L
  ASSERT_TRUE(w1.oldest_content.has_value());
  EXPECT_EQ(base::format_rfc3339(*w1.oldest_content), "2026-09-20T10:00:00+02:00");
  EXPECT_FALSE(container(figures, "bin").counts_waste);
  EXPECT_EQ(container(figures, "bin").amount, 0);
}

TEST(WasteMonth, StatesTheDifferenceOfTheLastReading) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  const auto& reading = container(figures, "w1").reading;
  ASSERT_TRUE(reading.has_value());
  EXPECT_EQ(reading->reading, 10'400'000);
  EXPECT_EQ(reading->logged, 10'162'000);
  EXPECT_FALSE(container(figures, "w2").reading.has_value());
}

TEST(WasteMonth, NamesCollectionsWithDocumentAndCarrier) {
  BookUnderTest book = october_book();
  const CollectedFigures open = figures_of(book, kOctober).collected.at(0);
  EXPECT_EQ(open.document_number, "CN-17");
  EXPECT_EQ(open.carrier_name, "Harbour Haulage");
  EXPECT_EQ(open.amount, 5'000'000);
  EXPECT_EQ(open.mass, 4'350'000);
  EXPECT_FALSE(open.document_returned.has_value());
  EXPECT_FALSE(open.weighed_mass.has_value());

  using entries::CollectionStage;
  book.enter({"collection",
              "2026-11-03T09:00:00+01:00",
              {},
              {entries::Takes{"c1", CollectionStage::kDocumentReturned, "", "CN-17", {}}}});
  book.enter({"collection",
              "2026-11-04T09:00:00+01:00",
              {},
              {entries::Takes{
                  "c1", CollectionStage::kWeighed, "", "", {{"w1", mass_g(4'401'000), false}}}}});
  const CollectedFigures closed = figures_of(book, kOctober).collected.at(0);
  ASSERT_TRUE(closed.document_returned.has_value());
  EXPECT_EQ(base::format_rfc3339(*closed.document_returned), "2026-11-03T09:00:00+01:00");
  EXPECT_EQ(closed.weighed_mass, 4'401'000);
  // As it was known the day before, the document was still out.
  const auto before = figures_of(book, kOctober, "2026-11-02T09:00:00+01:00");
  EXPECT_FALSE(before.collected.at(0).document_returned.has_value());
}

TEST(WasteMonth, KeepsNumberAndCarrierOfEachEntryOfACollection) {
  using entries::CollectionStage;
  BookUnderTest book = october_book();
  book.put("carrier", "k2", {text("name", "Marsh Carting")});
  book.enter(
      {"collection",
       "2026-10-29T10:00:00+01:00",
       {},
       {entries::Takes{
           "c1", CollectionStage::kTaken, "k2", "CN-18", {{"drum", mass_g(100'000), false}}}}});
  book.enter({"collection",
              "2026-11-03T09:00:00+01:00",
              {},
              {entries::Takes{"c1", CollectionStage::kDocumentReturned, "", "CN-18", {}}}});
  const auto collected = figures_of(book, kOctober).collected;
  ASSERT_EQ(collected.size(), 2U);
  EXPECT_EQ(collected[0].document_number, "CN-17");
  EXPECT_EQ(collected[0].carrier_name, "Harbour Haulage");
  EXPECT_FALSE(collected[0].document_returned.has_value());
  EXPECT_EQ(collected[1].document_number, "CN-18");
  EXPECT_EQ(collected[1].carrier_name, "Marsh Carting");
  EXPECT_TRUE(collected[1].document_returned.has_value());
  const auto november = figures_of(book, {2026, 11}, "2026-12-02T09:00:00+01:00");
  ASSERT_EQ(november.open_documents.size(), 1U);
  EXPECT_EQ(november.open_documents[0].document_number, "CN-17");
}

TEST(WasteMonth, TellsAWeighingOnceForAContainerOfACollection) {
  using entries::CollectionStage;
  BookUnderTest book = october_book();
  const auto take = [&](const std::string& occurred_at) {
    book.enter(
        {"collection",
         occurred_at,
         {},
         {entries::Takes{
             "c1", CollectionStage::kTaken, "k1", "CN-17", {{"w1", volume_ml(100'000), false}}}}});
  };
  take("2026-10-29T10:00:00+01:00");
  book.enter({"collection",
              "2026-11-04T09:00:00+01:00",
              {},
              {entries::Takes{
                  "c1", CollectionStage::kWeighed, "", "", {{"w1", mass_g(4'401'000), false}}}}});
  const auto collected = figures_of(book, kOctober).collected;
  ASSERT_EQ(collected.size(), 2U);
  EXPECT_EQ(collected[0].weighed_mass, 4'401'000);
  EXPECT_FALSE(collected[1].weighed_mass.has_value());
}

TEST(WasteMonth, KeepsAskingForDocumentsOfEarlierMonths) {
  const BookUnderTest book = october_book();
  EXPECT_THAT(figures_of(book, kOctober).open_documents, IsEmpty());
  const auto november = figures_of(book, {2026, 11}, "2026-12-02T09:00:00+01:00");
  ASSERT_EQ(november.open_documents.size(), 1U);
  EXPECT_EQ(november.open_documents[0].document_number, "CN-17");
}

TEST(WasteMonth, ListsLateCorrectedAndUnverifiedEntries) {
  const QualityFigures quality = figures_of(october_book(), kOctober).quality;
  EXPECT_THAT(seqs(quality.late), ElementsAre(21));
  EXPECT_THAT(seqs(quality.unconfirmed), ElementsAre(17));
  ASSERT_EQ(quality.corrections.size(), 2U);
  const CorrectionFigures& corrected = quality.corrections[0];
  EXPECT_EQ(corrected.target.seq, 10U);
  EXPECT_EQ(corrected.by.seq, 11U);
  EXPECT_EQ(corrected.by.person.id, "p2");
  EXPECT_EQ(corrected.reason, "slip of the keypad");
  ASSERT_EQ(corrected.changes.size(), 1U);
  EXPECT_EQ(corrected.changes[0].field, "volume_ml");
  EXPECT_EQ(corrected.changes[0].before, entries::FieldValue(measured("ml", 620'000)));
  EXPECT_EQ(corrected.changes[0].after, entries::FieldValue(measured("ml", 62'000)));
  EXPECT_TRUE(quality.corrections[1].struck);
  EXPECT_EQ(quality.corrections[1].reason, "undone at once");
}

TEST(WasteMonth, NamesWhatThisMonthChangedInEarlierOnes) {
  BookUnderTest book = october_book();
  book.amend({9,
              "2026-11-04T08:00:00+01:00",
              "read the jug wrong",
              {number("volume_ml", "ml", 9'000'000)},
              {entries::Adds{"w1", volume_ml(9'000'000)}}});
  const auto november = figures_of(book, {2026, 11}, "2026-12-02T09:00:00+01:00");
  const auto& earlier = november.quality.for_earlier_months;
  ASSERT_EQ(earlier.size(), 2U);
  EXPECT_EQ(earlier[0].seq, 21U);  // drained in October, recorded in November
  EXPECT_EQ(earlier[0].corrected_by, 0U);
  EXPECT_EQ(earlier[1].seq, 9U);
  EXPECT_EQ(earlier[1].corrected_by, 23U);
}

/// A change of the stream oil, recorded at this time.
std::uint64_t change_oil(BookUnderTest& book, const entries::Fields& attributes,
                         const std::string& recorded_at) {
  entries::Fields fields = attributes;
  fields.push_back(code("act", "changed"));
  fields.push_back({"thing", entries::Id{"oil"}});
  fields.push_back(code("thing_class", "stream"));
  return book.enter(
      {"register-change",
       recorded_at,
       fields,
       {entries::Changes{"stream", "oil", entries::RegisterAct::kChanged, attributes}}});
}

TEST(WasteMonth, NamesWhatAlteredItInTheRegisterAfterwards) {
  BookUnderTest book = october_book();
  const auto density = number("density_kg_m3", "kg_m3", 880'000);
  change_oil(book, {density}, "2026-10-31T23:59:59+01:00");  // within the month: no surprise
  const auto later =
      change_oil(book, {density, text("remarks", "weighed")}, "2026-11-01T00:00:00+01:00");
  change_oil(book, {text("remarks", "seen")}, "2026-11-02T08:00:00+01:00");  // alters no figure
  const auto correction =
      book.amend({later,
                  "2026-11-03T08:00:00+01:00",
                  "misread",
                  {number("density_kg_m3", "kg_m3", 890'000)},
                  {entries::Changes{"stream", "oil", entries::RegisterAct::kChanged, {density}}}});
  const auto changes = figures_of(book, kOctober).quality.register_changes;
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_EQ(changes[0].by.seq, later);
  EXPECT_EQ(changes[0].thing_class, "stream");
  EXPECT_EQ(changes[0].thing, "oil");
  EXPECT_THAT(changes[0].fields, ElementsAre("density_kg_m3"));
  EXPECT_EQ(changes[1].by.seq, correction);
  EXPECT_THAT(changes[1].fields, ElementsAre("density_kg_m3"));
  EXPECT_TRUE(figures_of(book, {2026, 11}).quality.register_changes.empty());
}

TEST(WasteMonth, NamesAStruckOutChangeOfTheRegister) {
  BookUnderTest book = october_book();
  const auto change = change_oil(book, {code("hazardous", "no")}, "2026-10-20T08:00:00+02:00");
  const auto strike = book.amend({change, "2026-11-05T08:00:00+01:00", "not so", {}, {}});
  const auto changes = figures_of(book, kOctober).quality.register_changes;
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].by.seq, strike);
  EXPECT_THAT(changes[0].fields, ElementsAre("hazardous"));
}

TEST(WasteMonth, FollowsEachCorrectionFromTheOneBefore) {
  BookUnderTest book = october_book();
  book.amend({10,
              "2026-10-05T08:00:00+02:00",
              "second look",
              {number("volume_ml", "ml", 64'000)},
              {entries::Adds{"w1", volume_ml(64'000)}}});
  const auto quality = figures_of(book, kOctober).quality;
  ASSERT_EQ(quality.corrections.size(), 3U);
  EXPECT_EQ(quality.corrections[1].changes.at(0).before,
            entries::FieldValue(measured("ml", 62'000)));
  EXPECT_EQ(quality.corrections[1].changes.at(0).after,
            entries::FieldValue(measured("ml", 64'000)));
}

TEST(WasteMonth, TellsEveryChangeOfALogSoThatTheyAddUp) {
  const WasteMonthFigures figures = figures_of(october_book(), kOctober);
  std::map<std::string, std::int64_t> changes;
  for (const EffectFigures& effect : figures.effects) {
    changes[effect.container] += effect.change.value_or(0);
  }
  for (const ContainerFigures& each : figures.containers) {
    EXPECT_EQ(each.movement.opening + changes[each.id], each.movement.closing) << each.id;
  }
  const auto& corrected = figures.effects.front();
  EXPECT_EQ(corrected.entry.seq, 10U);
  EXPECT_EQ(corrected.change, 62'000);
  EXPECT_THAT(corrected.corrected_by, ElementsAre(11U));
  EXPECT_EQ(corrected.entry.kind, "oil-drained");
  EXPECT_TRUE(figures.effects.back().late);
}

TEST(WasteMonth, GivesNoMassWithoutADensityAndNoTotalThatHidesIt) {
  BookUnderTest book = october_book();
  book.put("stream", "solvent",
           {code("counted_by", "volume"), code("hazardous", "yes"), text("low_code", "14 06 03"),
            text("name", "Spent solvent")});
  book.put("container", "s1", {text("name", "Solvent can"), {"stream", entries::Id{"solvent"}}});
  EXPECT_EQ(figures_of(book, kOctober).hazardous.arisen, 1'731'000);  // none of it yet
  book.drain("s1", 500'000, "2026-10-30T10:00:00+01:00");
  const WasteMonthFigures figures = figures_of(book, kOctober);
  EXPECT_FALSE(figures.streams[2].arisen_mass.has_value());
  EXPECT_FALSE(figures.hazardous.arisen.has_value());
  EXPECT_EQ(figures.other.arisen, 0);
}

TEST(WasteMonth, LeavesOutRetiredThingsWithNothingToTell) {
  BookUnderTest book = october_book();
  book.enter({"register-change",
              "2026-11-04T08:00:00+01:00",
              {},
              {entries::Changes{"container", "bin", entries::RegisterAct::kRetired, {}},
               entries::Changes{"container", "w1", entries::RegisterAct::kRetired, {}}}});
  const auto december = figures_of(book, {2026, 12}, "2027-01-02T09:00:00+01:00");
  ASSERT_EQ(december.containers.size(), 3U);
  EXPECT_EQ(december.containers[0].id, "w1");  // still holds oil
  EXPECT_TRUE(december.containers[0].retired);
  EXPECT_EQ(december.containers[2].id, "drum");
}

TEST(WasteMonth, OfAnEmptyBookHasNothingAndStillATotal) {
  const BookUnderTest book;
  const WasteMonthFigures figures = figures_of(book, kOctober);
  EXPECT_FALSE(figures.frame.site_known);
  EXPECT_THAT(figures.streams, IsEmpty());
  EXPECT_THAT(figures.containers, IsEmpty());
  EXPECT_THAT(figures.effects, IsEmpty());
  EXPECT_EQ(figures.hazardous.arisen, 0);
}

TEST(StatedMass, IsRoundedOnceFromTheExactProduct) {
  tallies::StreamFacts stream;
  stream.density = quantities::GramsPerCubicMetre(999'999);
  // 0.4999995 g: rounding to the milligram first would make it half a gram, and that one.
  EXPECT_EQ(stated_mass(stream, 500), 0);
  stream.density = quantities::GramsPerCubicMetre(1'000'000);
  EXPECT_EQ(stated_mass(stream, 500), 1'000);
  EXPECT_EQ(stated_mass(stream, -500), -1'000);
  EXPECT_EQ(stated_mass(stream, -499), 0);
  EXPECT_EQ(stated_mass(stream, 1'000'000'000'000), 1'000'000'000'000);
  stream.counted_by = tallies::CountedBy::kMass;
  EXPECT_EQ(stated_mass(stream, 1'500), 2'000);
}

}  // namespace
}  // namespace benchwarden::reports
