#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "entries/leaf.h"
#include "world.h"

namespace benchwarden::forms {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// A world in which one entry waits to be corrected.
class Recorded : public World {
 public:
  explicit Recorded(const std::string& submission) { record(submission); }
  /// The target with a correction laid over it.
  [[nodiscard]] entries::Content after(const std::string& fields) const {
    return merged(real_catalog(), targets.at(kId).content, accept(correct(fields), *this));
  }
  [[nodiscard]] std::vector<std::string> refused(const std::string& fields) const {
    return refusals(correct(fields), *this);
  }
};

const std::string kDrain = submit("oil-drained", R"({"container":"w1",
    "volume_ml":{"value":2,"unit":"fl_oz_us"},"temperature_c":20,"note":"left leg"})");
const std::string kEmptied = submit("rag-bin", R"({"container":"rag-bin","bin_act":"emptied",
    "emptied_into":"rag-drum","mass_kg":{"value":7,"unit":"lb"}})");

TEST(Correction, HoldsOnlyWhatItChanges) {
  const Recorded world(kDrain);
  const auto content = accept(correct(R"({"action":"corrected","volume_ml":59})"), world);
  EXPECT_EQ(base::write_json(entries::fields_json(content.fields)),
            R"({"action":"corrected","volume_ml":59})");
  EXPECT_EQ(content.reason, "read wrongly");
  EXPECT_EQ(base::format_uuid(*content.corrects), kId);
  EXPECT_FALSE(strikes_out(content));
}

TEST(Correction, LiesOverItsTarget) {
  const Recorded world(kDrain);
  const auto content = world.after(R"({"action":"corrected","volume_ml":59})");
  EXPECT_EQ(base::write_json(entries::fields_json(content.fields)),
            R"({"container":"w1","note":"left leg","temperature_c":20,"volume_ml":59})");
  EXPECT_EQ(base::format_uuid(content.id), kId);
  EXPECT_EQ(content.kind, "oil-drained");
  EXPECT_THAT(content.as_read, IsEmpty());  // 59 was typed in the field's own unit
}

TEST(Correction, KeepsReadingsOfWhatItLeavesAlone) {
  const Recorded world(kDrain);
  const auto content =
      world.after(R"({"action":"corrected","temperature_c":{"value":70,"unit":"f"}})");
  EXPECT_THAT(content.as_read,
              ElementsAre(entries::AsRead{"temperature_c", base::Decimal{70'000}, "f"},
                          entries::AsRead{"volume_ml", base::Decimal{2'000}, "fl_oz_us"}));
}

TEST(Correction, EmptiesFields) {
  const Recorded world(kDrain);
  const auto content = world.after(R"({"action":"corrected","cleared":[{"cleared_field":"note"},)"
                                   R"({"cleared_field":"temperature_c"}]})");
  EXPECT_EQ(value_of(content, "note"), "");
  EXPECT_EQ(value_of(content, "temperature_c"), "");
  EXPECT_EQ(value_of(content, "container"), "\"w1\"");
}

TEST(Correction, CannotEmptyWhatTheFormRequires) {
  const Recorded world(kDrain);
  EXPECT_THAT(world.refused(R"({"action":"corrected","cleared":[{"cleared_field":"volume_ml"}]})"),
              ElementsAre("/fields/volume_ml missing"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","cleared":[{"cleared_field":"shade"}]})"),
              ElementsAre("/fields/cleared/0/cleared_field unknown_name"));
}

TEST(Correction, IsNotMadeBeforeItsTargetWasRecorded) {
  World world;
  const std::string id = world.record(kDrain);
  const auto refused_with_target_at = [&](const std::string& recorded_at) {
    world.targets[id].recorded_at = base::parse_rfc3339(recorded_at)->instant;
    return refusals(correct(R"({"action":"struck-out"})"), world);
  };
  // The correction says 09:40 in the zone of +01:00; clocks may differ by ten minutes.
  EXPECT_THAT(refused_with_target_at("2026-11-25T08:50:00Z"), ElementsAre());
  EXPECT_THAT(refused_with_target_at("2026-11-25T08:50:00.001Z"),
              ElementsAre("/occurred_at before_target"));
}

TEST(Correction, DropsWhatNoLongerApplies) {
  const Recorded world(kEmptied);
  const auto content =
      world.after(R"({"action":"corrected","bin_act":"checked-at-close","lid_shut":"yes"})");
  EXPECT_EQ(base::write_json(entries::fields_json(content.fields)),
            R"({"bin_act":"checked-at-close","container":"rag-bin","lid_shut":"yes"})");
  EXPECT_THAT(content.as_read, IsEmpty());
}

TEST(Correction, IsCheckedByTheMergedForm) {
  const Recorded world(kEmptied);
  EXPECT_THAT(world.refused(R"({"action":"corrected","bin_act":"added"})"),
              ElementsAre("/fields/contaminant missing"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","lid_shut":"yes","shade":1})"),
              ElementsAre("/fields/lid_shut field_not_applicable", "/fields/shade unknown_field"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","mass_kg":500})"),
              ElementsAre("/fields/mass_kg impossible"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","emptied_into":"rag-bin"})"),
              ElementsAre("/fields/emptied_into named_twice"));
}

TEST(Correction, WantsConfirmationOnlyForWhatItChanges) {
  const Recorded world(submit("oil-drained", R"({"container":"w1","volume_ml":6000})",
                              R"(,"confirmed":["volume_ml"])"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","note":"two days"})"), IsEmpty());
  EXPECT_THAT(world.refused(R"({"action":"corrected","volume_ml":7000})"),
              ElementsAre("/fields/volume_ml needs_confirmation"));
  EXPECT_THAT(refusals(correct(R"({"action":"corrected","volume_ml":7000})",
                               R"(,"confirmed":["volume_ml"])"),
                       world),
              IsEmpty());
}

/// kDrain occurred at 08:33:56Z.
constexpr base::Instant kAtDrain{1'795'595'636'000};
const std::string kIntoSealed = R"({"action":"corrected","container":"w3"})";
const std::string kIntoRetired = R"({"action":"corrected","container":"w4"})";

TEST(Correction, CannotBringAnEntryToAThingThatWasOutOfUse) {
  Recorded world(kDrain);
  EXPECT_THAT(world.refused(kIntoSealed), ElementsAre("/fields/container not_in_service"));
  EXPECT_THAT(world.refused(kIntoRetired), ElementsAre("/fields/container retired_thing"));
  world.things["container/w3"].out_of_use_since = kAtDrain;
  world.things["container/w4"].out_of_use_since = kAtDrain;
  EXPECT_THAT(world.refused(kIntoSealed), ElementsAre("/fields/container not_in_service"));
  EXPECT_THAT(world.refused(kIntoRetired), ElementsAre("/fields/container retired_thing"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","container":"w77"})"),
              ElementsAre("/fields/container unknown_thing"));
}

TEST(Correction, MayNameThingsThatWentOutOfUseAfterItsTarget) {
  Recorded world(kDrain);
  world.things["container/w3"].out_of_use_since = base::Instant{kAtDrain.ms + 1};
  world.things["container/w4"].out_of_use_since = base::Instant{kAtDrain.ms + 1};
  EXPECT_THAT(world.refused(kIntoSealed), IsEmpty());
  EXPECT_THAT(world.refused(kIntoRetired), IsEmpty());
}

TEST(Correction, DoesNotJudgeAgainWhatTheEntryNamedBefore) {
  Recorded world(kDrain);
  world.things["container/w1"] = Thing{true, true, {}};
  EXPECT_THAT(world.refused(R"({"action":"corrected","container":"w1","volume_ml":5})"), IsEmpty());
}

TEST(Correction, JudgesEachFieldAndEachRowForItself) {
  Recorded transfer(submit("transfer", R"({"from_container":"w3","to_container":"w1"})"));
  EXPECT_THAT(
      transfer.refused(R"({"action":"corrected","from_container":"w1","to_container":"w3"})"),
      ElementsAre("/fields/to_container not_in_service"))
      << "pouring out of a sealed container is not pouring into it";

  Recorded loads(submit("collection", R"({"collection":"c","stage":"weighed","loads":[
      {"container":"w1","mass_kg":1},{"container":"w3","mass_kg":1}]})"));
  loads.collections["c"] = {told_taken("c", "N 1", {"w1", "w3", "w4"}, "2026-11-20T10:00:00Z")};
  loads.things["container/w3"] = Thing{true, true, {}};
  EXPECT_THAT(loads.refused(R"({"action":"corrected","loads":[{"container":"w3","mass_kg":2}]})"),
              IsEmpty())
      << "a row may move up";
  EXPECT_THAT(loads.refused(R"({"action":"corrected","loads":[{"container":"w4","mass_kg":2}]})"),
              ElementsAre("/fields/loads/0/container retired_thing"));
}

TEST(Correction, MustChangeSomething) {
  const Recorded world(kDrain);
  EXPECT_THAT(world.refused(R"({"action":"corrected","note":"left leg"})"),
              ElementsAre("/fields nothing_changed"));
  EXPECT_THAT(world.refused(R"({"action":"corrected","cleared":[{"cleared_field":"fluid"}]})"),
              ElementsAre("/fields nothing_changed"));
}

TEST(Correction, NeedsItsOwnMembers) {
  const World world;
  EXPECT_THAT(
      refusals(submit("correction", R"({"action":"mended"})"), world),
      ElementsAre("/corrects missing", "/reason reason_needed", "/fields/action unknown_code"));
}

TEST(Correction, OfACorrectionOrAReportIsRefused) {
  World world;
  world.role = "daemon";
  for (const Sample& sample : samples()) {
    if (sample.name == "issued") world.record(sample.submission);
  }
  world.role = "manager";
  EXPECT_THAT(refusals(correct(R"({"action":"struck-out"})"), world),
              ElementsAre("/corrects unknown_entry"));
  const Recorded drain(kDrain);
  world.targets[kId].content = accept(correct(R"({"action":"struck-out"})"), drain);
  EXPECT_THAT(refusals(correct(R"({"action":"struck-out"})"), world),
              ElementsAre("/corrects unknown_entry"));
}

TEST(Correction, NeedsTheRoleOfWhatItCorrects) {
  Recorded world(submit("register-change", R"({"thing_class":"container","thing":"w1",
      "act":"changed","location":"Bay 3"})"));
  world.role = "technician";
  EXPECT_THAT(world.refused(R"({"action":"struck-out"})"), ElementsAre("/corrects not_allowed"));
}

TEST(Correction, ComesBackFromItsLeafAsItWas) {
  const Recorded world(kDrain);
  entries::Entry entry;
  entry.content =
      accept(correct(R"({"volume_ml":{"value":3,"unit":"fl_oz_us"},"action":"corrected","note":"x",
                 "cleared":[{"cleared_field":"temperature_c"}]})"),
             world);
  entry.signature.person = "p1";
  entry.seq = 9;
  const auto read = entries::read_leaf(entries::write_leaf(entry), real_catalog());
  ASSERT_TRUE(read.ok()) << read.error().detail;
  EXPECT_EQ(read->content, entry.content);
}

TEST(StrikeOut, NeedsOnlyItsReason) {
  const Recorded world(kDrain);
  const auto content = accept(correct(R"({"action":"struck-out"})"), world);
  EXPECT_TRUE(strikes_out(content));
  EXPECT_EQ(merged(real_catalog(), world.targets.at(kId).content, content),
            world.targets.at(kId).content);
  EXPECT_THAT(effects_of(real_catalog(), content), IsEmpty());
}

TEST(StrikeOut, TakesNoFields) {
  const Recorded world(kDrain);
  EXPECT_THAT(world.refused(R"({"action":"struck-out","volume_ml":59})"),
              ElementsAre("/fields/volume_ml field_not_applicable"));
}

TEST(StrikeOut, IsRefusedForAThingThatLaterEntriesName) {
  Recorded world(submit("register-change", R"({"thing_class":"tool","thing":"t9","act":"added",
      "name":"Pump","tool_type":"hand-pump"})"));
  EXPECT_THAT(world.refused(R"({"action":"struck-out"})"), IsEmpty());
  world.targets[kId].relied_on = true;
  EXPECT_THAT(world.refused(R"({"action":"struck-out"})"), ElementsAre("/corrects relied_on"));
}

/// A note laid over every sample leaves all else, and so its effects, as they were.
TEST(Correction, LeavesAllElseOfEveryKindAsItWas) {
  for (const Sample& sample : samples()) {
    World world;
    world.role = sample.role;
    world.record(sample.submission);
    const entries::Content& original = world.targets.at(kId).content;
    const Definition& form = *real_catalog().find(original.kind);
    const FieldDefinition* note = find_field(form, "note");
    if (note == nullptr) continue;
    const auto correction = accept(correct(R"({"action":"corrected","note":"seen again"})"), world);
    const auto content = merged(real_catalog(), original, correction);
    EXPECT_EQ(value_of(content, "note"), "\"seen again\"") << sample.name;
    for (const entries::Field& field : original.fields) {
      if (field.name == "note") continue;
      const auto* kept = entries::find_field(content.fields, field.name);
      ASSERT_NE(kept, nullptr) << sample.name << " lost " << field.name;
      EXPECT_EQ(*kept, field.value);
    }
    EXPECT_EQ(effects_of(real_catalog(), content), effects_of(real_catalog(), original));
  }
}

}  // namespace
}  // namespace benchwarden::forms
