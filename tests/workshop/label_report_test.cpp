#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "workshop/report.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::string change(const std::string& thing_class, const std::string& id,
                   const std::string& attributes) {
  return R"({"act":"changed","thing_class":")" + thing_class + R"(","thing":")" + id + R"(",)" +
         attributes + "}";
}

class LabelReport : public ::testing::Test {
 protected:
  LabelReport() {
    workshop_.enter(
        tell("register-change", change("stream", "oil",
                                       R"("waste_type":"used-oil","keep_apart_from":"solvent",
            "pictograms":[{"pictogram":"ghs08"},{"pictogram":"ghs09"}],
            "pictograms_source":"data sheet of 2025-03-01")")));
    workshop_.enter(drain("w1", "300", "2026-10-30T09:00:00Z"));
  }

  base::Result<ReportFile> asked(const std::string& subject, const std::string& format,
                                 const std::string& paper = "a6") const {
    const auto request = read_report_request(
        {.name = "label", .format = format, .paper = paper, .subject = subject});
    if (!request) return request.error();
    return make_report(workshop_.ports(), *request);
  }
  std::string made(const std::string& subject, const std::string& format,
                   const std::string& paper = "a6") const {
    const auto file = asked(subject, format, paper);
    EXPECT_TRUE(file.ok()) << file.error().detail;
    return file.ok() ? file->bytes : "";
  }
  std::string refused(const std::string& subject, const std::string& paper = "a6") const {
    const auto file = asked(subject, "pdf", paper);
    return file.ok() ? "" : file.error().detail;
  }

  TestWorkshop workshop_;
};

TEST_F(LabelReport, ComesInEveryFormatWithTheSameFigures) {
  EXPECT_THAT(made("container/w1", "pdf"), StartsWith("%PDF-"));
  EXPECT_THAT(made("container/w1", "svg"), HasSubstr("30 October 2026</text>"));
  EXPECT_THAT(made("container/w1", "html"),
              AllOf(HasSubstr("<dd>30 October 2026</dd>"), HasSubstr("Keep apart from solvent")));
  EXPECT_THAT(made("container/w1", "csv"),
              HasSubstr("label,container/w1,accumulation_start,2026-10-30,"));
  const base::Json json = parsed(made("container/w1", "json"));
  EXPECT_EQ(value_at(json, "labels/0/accumulation_start"), R"("2026-10-30")");
  EXPECT_EQ(value_at(json, "labels/0/code"), R"("container/w1")");
  EXPECT_EQ(value_at(json, "labels/0/pictograms"), R"(["ghs08","ghs09"])");
}

TEST_F(LabelReport, BearsTheWordsOfTheRulePackOfTheSite) {
  EXPECT_EQ(value_at(parsed(made("container/w1", "json")), "labels/0/words"), "[]");
  workshop_.enter(
      tell("register-change",
           change("workshop", "site", R"("rule_pack":"us-federal","generator_category":"sqg")")));
  const base::Json json = parsed(made("container/w1", "json"));
  EXPECT_EQ(value_at(json, "labels/0/words/0/words"), R"("Used Oil")");
  EXPECT_EQ(value_at(json, "labels/0/words/0/citation"), "\"40 CFR 279.22(c)\"");
  EXPECT_EQ(value_at(json, "labels/0/words/0/confidence"), R"("text-seen")");
  EXPECT_THAT(made("container/w1", "html"), HasSubstr("<p class=\"words\">Used Oil</p>"));
}

TEST_F(LabelReport, TellsOfWordsThatAreKnownAtSecondHandThatTheyAre) {
  workshop_.enter(
      tell("register-change",
           change("workshop", "site", R"("rule_pack":"us-federal","generator_category":"sqg")")));
  workshop_.enter(
      tell("register-change", change("stream", "oil", R"("waste_type":"spent-solvent")")));
  const base::Json json = parsed(made("container/w1", "json"));
  EXPECT_EQ(value_at(json, "labels/0/words/0/words"), R"("Hazardous Waste")");
  EXPECT_EQ(value_at(json, "labels/0/words/0/confidence"), R"("second-hand")");
  EXPECT_THAT(made("container/w1", "html"), HasSubstr("second-hand, not read in the text"));
}

TEST_F(LabelReport, HasAnAccumulationStartWhereTheWasteArisesOnlyByARuleThatCountsItsDays) {
  const auto tells = [&] {
    return value_at(parsed(made("container/w1", "json")), "labels/0/tells_accumulation_start");
  };
  workshop_.enter(
      tell("register-change",
           change("workshop", "site", R"("rule_pack":"us-federal","generator_category":"sqg")")));
  workshop_.enter(
      tell("register-change", change("stream", "oil", R"("waste_type":"spent-solvent")")));
  EXPECT_EQ(tells(), "true");
  workshop_.enter(
      tell("register-change", change("container", "w1", R"("area":"point-of-generation")")));
  EXPECT_EQ(tells(), "false");
  EXPECT_THAT(made("container/w1", "csv"), Not(HasSubstr("accumulation_start")));
  workshop_.enter(
      tell("register-change", change("stream", "oil", R"("waste_type":"solvent-wipes")")));
  EXPECT_EQ(tells(), "true") << "180 days from the start of accumulation, wherever it stands";
}

TEST_F(LabelReport, TellsWhatHasNoRoomOnThePaperAskedFor) {
  const auto left_out = [&](const std::string& paper) {
    const base::Json json = parsed(made("cylinder/n1", "json", paper));
    return json.find("labels")->array()->front().find("left_out")->array()->size();
  };
  EXPECT_EQ(left_out("a6"), 0U);
  EXPECT_GT(left_out("a7"), 0U);
  EXPECT_THAT(made("cylinder/n1", "html", "a7"), HasSubstr("Without room on the paper asked for:"));
}

TEST_F(LabelReport, IsOfOneThingOrOfAWholeClassInUse) {
  const base::Json all = parsed(made("container", "json"));
  EXPECT_EQ(value_at(all, "labels/3/id"), R"("w2")");
  EXPECT_EQ(value_at(all, "labels/4/id"), "");
  workshop_.enter(
      tell("register-change", R"({"act":"retired","thing_class":"container","thing":"w2"})"));
  EXPECT_EQ(value_at(parsed(made("container", "json")), "labels/3/id"), "");
  EXPECT_EQ(value_at(parsed(made("container/w2", "json")), "labels/0/retired"), "true");
  EXPECT_THAT(value_at(parsed(made("container/w2", "json")), "labels/0/retired_on"),
              StartsWith("\"2026-11-"));
}

TEST_F(LabelReport, TagsAToolWithItsNextDueDateAndSaysWhenItIsWithdrawn) {
  workshop_.enter(
      tell("register-change", change("tool", "r1", R"("inspection_interval_days":30)")));
  const base::Json tag = parsed(made("tool/r1", "json"));
  EXPECT_THAT(value_at(tag, "labels/0/due/day"), StartsWith("\"2026-"));
  EXPECT_NE(value_at(tag, "labels/0/due/rule"), "");
  EXPECT_EQ(value_at(tag, "labels/0/due/past"), "true");
  EXPECT_THAT(made("tool/r1", "html"), HasSubstr("Was due"));
  EXPECT_THAT(made("tool/r1", "pdf", "roll-62"), StartsWith("%PDF-"));
}

TEST_F(LabelReport, RefusesAPaperThatIsTooSmallAndNamesOneThatWouldDo) {
  EXPECT_THAT(refused("container/w1", "a7"),
              AllOf(StartsWith("the label of Container w1 does not fit on 'a7': it bears "
                               "pictograms and needs at least 105 x 148 mm"),
                    HasSubstr("accepted: a4, letter, a6")));
  EXPECT_EQ(refused("container/w1", "a4"), "");
}

TEST_F(LabelReport, RefusesWhatIsNotInTheRegisterAndWhatHasNoLabel) {
  EXPECT_EQ(refused("container/w9"), "there is no container 'w9' in the register");
  EXPECT_EQ(refused("gauge"), "there is no gauge in use in the register");
  EXPECT_THAT(refused("carrier/k1"), HasSubstr("accepted: container/"));
}

TEST_F(LabelReport, IsNeverIssued) {
  auto request = read_report_request(
      {.name = "label", .format = "pdf", .paper = "a6", .subject = "container/w1"});
  ASSERT_TRUE(request.ok());
  const auto issued = issue_report(workshop_.ports(), kManager, *request);
  ASSERT_FALSE(issued.ok());
  EXPECT_THAT(issued.error().detail, HasSubstr("label is not issued"));
}

TEST_F(LabelReport, GivesEqualBytesForAnEqualBook) {
  for (const char* format : {"pdf", "html", "csv", "json", "svg"}) {
    const std::string before = made("container", format, "a4");
    workshop_.clock.set(at("2026-11-20T18:00:00Z"));
    EXPECT_EQ(made("container", format, "a4"), before) << format;
  }
}

}  // namespace
}  // namespace benchwarden::workshop
