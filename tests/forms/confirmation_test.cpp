// How a question about something unusual reads: names of things, amounts with units, the reason.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "forms/wording.h"
#include "world.h"

namespace benchwarden::forms {
namespace {

using quantities::Quantity;

Quantity amount(std::int64_t thousandths, const char* unit) {
  return {base::Decimal{thousandths}, quantities::find_unit(unit)};
}

/// Oil drum w1 and bench can w2, solvent can s1, regulator r1; 3 L stand on the log of w2.
class Workshop : public World {
 public:
  Workshop() {
    things["stream/oil"].attributes = {{"counted_by", entries::Code{"volume"}},
                                       {"density_kg_m3", amount(870'000, "kg_m3")},
                                       {"low_code", entries::Text{"13 01 10"}},
                                       {"name", entries::Text{"Used damper oil"}}};
    things["stream/solvent"].attributes = {{"counted_by", entries::Code{"volume"}},
                                           {"low_code", entries::Text{"14 06 03"}},
                                           {"name", entries::Text{"Spent solvent"}}};
    container("w2", "Bench can", "oil");
    container("s1", "Solvent can", "solvent");
    things["tool/r1"].attributes = {{"name", entries::Text{"Regulator R1"}}};
    logs["w2"] = {true, {quantities::Microlitres(3'000'000), std::nullopt}};
  }

 private:
  void container(const std::string& id, const char* name, const char* stream) {
    things["container/" + id].attributes = {{"counts_waste", entries::Code{"yes"}},
                                            {"name", entries::Text{name}},
                                            {"stream", entries::Id{stream}}};
  }
};

/// What is asked about a submission of that kind, the only refusal of it.
std::string asked(const std::string& kind, const std::string& fields,
                  const Surroundings& world = Workshop()) {
  const auto wording = Wording::load(real_files());
  const auto result = validate(real_catalog(), json(submit(kind, fields)), world);
  if (!wording || result || result.error().size() != 1) return "";
  const entries::Refusal& refusal = result.error().front();
  if (refusal.code != entries::RefusalCode::kNeedsConfirmation) return "";
  return wording->sentence(refusal, {real_catalog().find(kind)});
}

TEST(Confirmation, OfAnAmountSaysWhatIsUsual) {
  EXPECT_EQ(asked("oil-drained", R"({"container":"w1","volume_ml":6000})"),
            "Check Volume. 6\u202F000\u00A0mL is unusual here: usual is 1 to 5\u202F000\u00A0mL. "
            "Confirm it if it is what you mean.");
}

TEST(Confirmation, OfMoreThanTheLogNamesTheContainer) {
  EXPECT_EQ(asked("transfer", R"({"from_container":"w2","to_container":"w1","volume_ml":3001})"),
            "Check Volume. By the book Bench can holds 3\u202F000\u00A0mL, and "
            "3\u202F001\u00A0mL is more than that. Confirm it if it is what you mean.");
}

TEST(Confirmation, OfAMassThatIsNotTheVolumeNamesTheRow) {
  EXPECT_EQ(asked("collection", R"({"collection":"new","stage":"taken","carrier":"c1",)"
                                R"("document_number":"D 1","loads":[)"
                                R"({"container":"w2","volume_ml":1000,"mass_kg":2}]})"),
            "Check Row 1, Mass. 2\u00A0kg does not go with the volume given for Bench can: by the "
            "density of its waste, usual is 0.696 to 1.044\u00A0kg. Confirm it if it is what you "
            "mean.");
}

TEST(Confirmation, OfAnotherChapterSaysWhatTheContainerIsFor) {
  EXPECT_EQ(asked("oil-drained", R"({"container":"s1","volume_ml":60})"),
            "Check Container. Solvent can is for waste of code 14 06 03. Usual here is a code of "
            "the List of Waste that begins with 13. Waste of another kind can make all that is in "
            "a container another waste. Confirm it if it is what you mean.");
}

TEST(Confirmation, OfAnotherStreamNamesBoth) {
  EXPECT_EQ(asked("transfer", R"({"from_container":"w2","to_container":"s1","volume_ml":60})"),
            "Check Into. Solvent can is for Spent solvent, and this comes out of a container for "
            "Used damper oil. Mixed, all of it may count as another waste; the local rules and the "
            "collector say how it is handled. Confirm it if it is what you mean.");
}

TEST(Confirmation, OfWhatFailedNamesTheThingAndTheItems) {
  EXPECT_EQ(asked("tool-inspection", R"({"inspected_class":"tool","tool":"r1",)"
                                     R"("body_condition":"failed","hose_condition":"failed",)"
                                     R"("result":"in-service"})"),
            "Check Result. Regulator R1 would be recorded as 'In service', and this failed: Body "
            "and threads, Hose and couplings. What fails a check is usually withdrawn until a "
            "competent person has seen to it. Confirm it if it is what you mean.");
}

TEST(Confirmation, OfWhatIsSuspectedNamesTheContainer) {
  EXPECT_EQ(asked("oil-drained", R"({"container":"w2","volume_ml":60,"contamination":"water"})"),
            "Check Suspected contamination. Suspected in what goes into Bench can: Water. It can "
            "make all that is in there contaminated. Is Bench can the container set apart for it? "
            "If not, keep it apart if that is possible; the local rules and the collector say how "
            "it is handled. Confirm it if it is what you mean.");
}

TEST(Confirmation, OfWhatIsWithdrawnSaysSinceWhen) {
  Workshop world;
  world.things["tool/r1"].in_service = false;
  world.things["tool/r1"].out_of_use_since = base::parse_rfc3339("2026-11-03T08:00:00Z")->instant;
  EXPECT_EQ(
      asked("gas-use", R"({"cylinder":"n1","tool":"r1","unit_count":1})", world),
      "Check Charged with. Regulator R1 has been withdrawn from use since 2026-11-03. What is "
      "withdrawn is not used until a competent person has returned it to service. Confirm it "
      "if it is what you mean.");
}

TEST(Confirmation, OfWhatDoesNotFitSaysHowMuchRoomThereIs) {
  Workshop world;
  world.logs["w1"] = {true, {quantities::Microlitres(204'950'000), std::nullopt}};
  EXPECT_EQ(asked("oil-drained", R"({"container":"w1","volume_ml":60})", world),
            "Check Container. By the book Oil drum has room for 50\u00A0mL, and 60\u00A0mL is more "
            "than that. Check the amount and the container, and look whether anything ran over or "
            "fell beside it. Confirm it if it is what you mean.");
}

TEST(Confirmation, TellsTheRoomInTheUnitThatWasTypedAndRoundsItDown) {
  Workshop world;
  world.logs["w1"] = {true, {quantities::Microlitres(203'000'000), std::nullopt}};
  EXPECT_THAT(asked("oil-drained",
                    R"({"container":"w1","volume_ml":{"value":120,"unit":"fl_oz_us"}})", world),
              testing::StartsWith("Check Container. By the book Oil drum has room for "
                                  "67.6\u00A0US fl oz, and 120\u00A0US fl oz is more"));
}

TEST(Confirmation, TellsTheRoomForAMassAsAMass) {
  Workshop world;
  world.logs["w1"] = {true, {quantities::Microlitres(204'000'000), std::nullopt}};
  world.logs["w2"] = {true,
                      {quantities::Microlitres(9'000'000), quantities::Milligrams(7'830'000)}};
  EXPECT_THAT(
      asked("transfer", R"({"from_container":"w2","to_container":"w1","mass_kg":2})", world),
      testing::StartsWith("Check Into. By the book Oil drum has room for 0.87\u00A0kg, and "
                          "2\u00A0kg is more than that."));
}

TEST(Confirmation, TellsWhatIsUsualInTheUnitThatWasTyped) {
  EXPECT_THAT(asked("oil-drained", R"({"container":"w1","volume_ml":60,)"
                                   R"("temperature_c":{"value":200,"unit":"f"}})"),
              testing::HasSubstr("is unusual here: usual is 41 to 140\u00A0°F."));
  EXPECT_THAT(
      asked("oil-drained", R"({"container":"w1","volume_ml":{"value":200,"unit":"fl_oz_us"}})"),
      testing::HasSubstr("usual is 0.034 to 169\u00A0US fl oz."));
}

TEST(Confirmation, WritesNumbersAsTheWorkshopDoes) {
  Workshop world;
  world.things["workshop/site"].attributes = {{"number_format", entries::Code{"comma"}},
                                              {"units", entries::Code{"us"}}};
  world.logs["w1"] = {true, {quantities::Microlitres(203'000'000), std::nullopt}};
  EXPECT_THAT(asked("transfer", R"({"from_container":"w2","to_container":"w1"})", world),
              testing::HasSubstr("has room for 67,6\u00A0US fl oz, and 101,442\u00A0US fl oz"));
}

TEST(Confirmation, CallsAThingWithoutANameByItsId) {
  Workshop world;
  world.things["container/s1"].attributes.erase(world.things["container/s1"].attributes.begin() +
                                                1);
  EXPECT_THAT(asked("oil-drained", R"({"container":"s1","volume_ml":60})", world),
              testing::StartsWith("Check Container. s1 is for waste"));
}

}  // namespace
}  // namespace benchwarden::forms
