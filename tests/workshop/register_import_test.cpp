#include "workshop/register_import.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/register_file.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A container before the stream it names, and a thing of the register with one new attribute.
constexpr const char* kFile = R"(
[[thing]]
class = "container"
id = "s1"
name = "Solvent can"
stream = "solvent"
capacity_l = 30
working_limit_percent = "80"
counts_waste = "yes"

[[thing]]
class = "stream"
id = "solvent"
name = "Spent solvent"
low_code = "14 06 03"
hazardous = "yes"
counted_by = "volume"
density_kg_m3 = "780"

[[thing]]
class = "tool"
id = "r1"
name = "Regulator"
tool_type = "regulator"
rated_pressure_bar = { value = "2900", unit = "psi" }

[[thing]]
class = "carrier"
id = "k1"
registration_number = "INV-1"
)";

class RegisterImport : public ::testing::Test {
 protected:
  ImportOutcome import(std::string_view toml, ImportMode mode = ImportMode::kRecord,
                       const Actor& actor = kManager) {
    return import_register(workshop_.ports(), actor, toml, mode);
  }
  /// "added container/s1" a thing.
  static std::vector<std::string> done(const ImportOutcome& outcome) {
    std::vector<std::string> lines;
    if (const auto* things = std::get_if<std::vector<ImportedThing>>(&outcome)) {
      for (const ImportedThing& thing : *things) {
        lines.push_back(std::string(act_name(thing.act)) + " " + thing.thing_class + "/" +
                        thing.thing);
      }
    }
    for (const std::string& fault : faults(outcome)) ADD_FAILURE() << fault;
    return lines;
  }
  static std::vector<std::string> faults(const ImportOutcome& outcome) {
    std::vector<std::string> lines;
    if (const auto* faults = std::get_if<ImportFaults>(&outcome)) {
      for (const ImportFault& fault : *faults) lines.push_back(format_import_fault("f", fault));
    }
    return lines;
  }
  [[nodiscard]] const tallies::Thing* thing(std::string_view thing_class, std::string_view id) {
    return workshop_.ports().live.view()->thing(thing_class, id);
  }

  TestWorkshop workshop_;
};

TEST_F(RegisterImport, AddsChangesAndLeavesOutInTheOrderOfNeed) {
  const std::uint64_t before = workshop_.size();
  EXPECT_THAT(done(import(kFile)), ElementsAre("added stream/solvent", "added container/s1",
                                               "changed tool/r1", "unchanged carrier/k1"));
  EXPECT_EQ(workshop_.size(), before + 3);
  ASSERT_NE(thing("container", "s1"), nullptr);
  const auto change = workshop_.ports().book.entry(before + 3);
  ASSERT_TRUE(change.ok());
  EXPECT_EQ(entries::find_field(change->content.fields, "name"), nullptr) << "is not said again";
  const auto* rated = entries::find_field_as<quantities::Quantity>(thing("tool", "r1")->attributes,
                                                                   "rated_pressure_bar");
  ASSERT_NE(rated, nullptr);
  EXPECT_EQ(base::format_decimal(rated->value), "199.948");  // 2900 psi, NIST SP 811
}

TEST_F(RegisterImport, SaysNothingTheSecondTime) {
  done(import(kFile));
  const std::uint64_t before = workshop_.size();
  EXPECT_THAT(done(import(kFile)), ElementsAre("unchanged stream/solvent", "unchanged container/s1",
                                               "unchanged tool/r1", "unchanged carrier/k1"));
  EXPECT_EQ(workshop_.size(), before);
}

TEST_F(RegisterImport, RecordsNothingInADryRun) {
  const std::uint64_t before = workshop_.size();
  EXPECT_EQ(done(import(kFile, ImportMode::kDryRun)).size(), 4U);
  EXPECT_EQ(workshop_.size(), before);
  EXPECT_EQ(thing("stream", "solvent"), nullptr);
}

TEST_F(RegisterImport, NamesEveryFaultWithItsLineAndRecordsNothing) {
  const std::uint64_t before = workshop_.size();
  const std::string file = R"([[thing]]
class = "stream"
id = "oil"
counted_by = "mass"

[[thing]]
class = "container"
id = "w9"
name = "Drum"
stream = "nowhere"
capacity_l = "99999"
working_limit_percent = "abc"
counts_waste = "perhaps"
colour = "red"

[[thing]]
id = "w8"

[[thing]]
class = "container"
id = "w9"

[[person]]
name = "Bench A"

[[thing]]
class = "room"
id = "hall"
name = "Hall"
volume_m3 = "60"
act = "added"
)";
  EXPECT_THAT(
      faults(import(file)),
      ElementsAre(AllOf(HasSubstr("f:4: stream/oil: "), HasSubstr("cannot change")),
                  AllOf(HasSubstr("f:10: container/w9: "), HasSubstr("'nowhere'")),
                  AllOf(HasSubstr("f:11: container/w9: "), HasSubstr("Accepted: 0.1")),
                  AllOf(HasSubstr("f:12: container/w9: "), HasSubstr("Accepted: 1")),
                  AllOf(HasSubstr("f:13: container/w9: "), HasSubstr("yes, no")),
                  AllOf(HasSubstr("f:14: container/w9: "), HasSubstr("no such field")),
                  "f:16: 'class' is missing",
                  "f:19: container/w9: is described twice; the other time in line 6",
                  "f:23: 'person' is not known here; accepted: [[thing]]",
                  AllOf(HasSubstr("f:31: 'act' is not written"), HasSubstr("accepted: class"))));
  EXPECT_EQ(workshop_.size(), before);
  EXPECT_EQ(thing("room", "hall"), nullptr);
}

TEST_F(RegisterImport, TellsAFaultOnceThoughOthersRestOnTheThing) {
  const std::string file = R"(
[[thing]]
class = "stream"
id = "solvent"
name = "Spent solvent"
low_code = "14.06"
hazardous = "yes"
counted_by = "volume"

[[thing]]
class = "container"
id = "s1"
name = "Solvent can"
stream = "solvent"
capacity_l = "30"
working_limit_percent = "80"
counts_waste = "yes"
)";
  EXPECT_THAT(faults(import(file)), ElementsAre(HasSubstr("f:6: stream/solvent: ")));
}

TEST_F(RegisterImport, WantsUnusualValuesConfirmedInTheFile) {
  const std::string room =
      "[[thing]]\nclass = \"room\"\nid = \"box\"\nname = \"Box\"\n"
      "volume_m3 = \"2\"\n";
  EXPECT_THAT(faults(import(room)), ElementsAre(AllOf(HasSubstr("f:5: "), HasSubstr("unusual"))));
  EXPECT_THAT(done(import(room + "confirmed = [\"volume_m3\"]\n")), ElementsAre("added room/box"));
}

TEST_F(RegisterImport, JudgesNotAgainWhatTheRegisterHasAlready) {
  workshop_.enter(tell("register-change", R"({"thing_class":"room","thing":"box","act":"added",
      "name":"Box","volume_m3":2})",
                       kNow, R"(,"confirmed":["volume_m3"])"));
  workshop_.enter(tell("register-change", R"({"thing_class":"cabinet","thing":"c1","act":"added",
      "name":"Cabinet","capacity_l":120,"room":"box"})"));
  const std::string room =
      "[[thing]]\nclass = \"room\"\nid = \"box\"\nname = \"Small box\"\nvolume_m3 = \"2\"\n";
  EXPECT_THAT(done(import(room)), ElementsAre("changed room/box")) << "its size was confirmed once";
  EXPECT_THAT(done(import(room)), ElementsAre("unchanged room/box"));
  workshop_.enter(
      tell("register-change", R"({"thing_class":"room","thing":"box","act":"retired"})"));
  const std::string cabinet =
      "[[thing]]\nclass = \"cabinet\"\nid = \"c1\"\nname = \"Red cabinet\"\nroom = \"box\"\n";
  EXPECT_THAT(done(import(cabinet)), ElementsAre("changed cabinet/c1"))
      << "it stood there before the room was retired";
}

TEST_F(RegisterImport, RefusesWhatIsRetired) {
  workshop_.enter(
      tell("register-change", R"({"thing_class":"tool","thing":"r1","act":"retired"})"));
  EXPECT_THAT(faults(import("[[thing]]\nclass = \"tool\"\nid = \"r1\"\nname = \"Regulator\"\n")),
              ElementsAre(AllOf(HasSubstr("f:3: tool/r1"), HasSubstr("retired"))));
}

TEST_F(RegisterImport, IsForManagersAlone) {
  for (const Actor& actor : {kTechnician, kInspector}) {
    const auto outcome = import(kFile, ImportMode::kDryRun, actor);
    ASSERT_TRUE(std::holds_alternative<base::Error>(outcome));
    EXPECT_EQ(std::get<base::Error>(outcome).code, base::ErrorCode::kForbidden);
  }
}

TEST_F(RegisterImport, NamesAFileThatIsNoToml) {
  EXPECT_THAT(faults(import("[[thing]]\nclass = \n")), ElementsAre(HasSubstr("f:2: ")));
  EXPECT_THAT(faults(import("")), ElementsAre("f: holds no thing; accepted: a table [[thing]] for "
                                              "each"));
  EXPECT_THAT(faults(import("[[thing]]\nclass = \"\"\nid = 7\n")),
              ElementsAre(HasSubstr("f:1: 'class' is empty"), HasSubstr("f:3: 'id' must be text")));
}

TEST_F(RegisterImport, IsFollowedByTheTallies) {
  done(import(kFile));
  workshop_.enter(tell("oil-drained", R"({"container":"s1","volume_ml":500})", kNow,
                       R"(,"confirmed":["container"])"));
  EXPECT_EQ(workshop_.volume_ml("s1"), "500");
}

TEST(RegisterOrder, PutsEachStreamBeforeItsContainer) {
  const auto& catalog = real_definitions().catalog;
  std::string file;
  for (int i = 0; i < 3000; ++i) {
    file += "[[thing]]\nclass = \"container\"\nid = \"c" + std::to_string(i) + "\"\nstream = \"s" +
            std::to_string(i) + "\"\n";
  }
  for (int i = 0; i < 3000; ++i) {
    file += "[[thing]]\nclass = \"stream\"\nid = \"s" + std::to_string(i) + "\"\n";
  }
  const auto sorted = in_order_of_need(read_register_file(file, catalog).things, catalog);
  ASSERT_EQ(sorted.size(), 6000U);
  for (std::size_t i = 0; i < sorted.size(); i += 2) {
    EXPECT_EQ(sorted[i].thing_class, "stream");
    EXPECT_EQ(sorted[i].id.substr(1), sorted[i + 1].id.substr(1));
  }
}

}  // namespace
}  // namespace benchwarden::workshop
