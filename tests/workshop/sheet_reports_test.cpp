#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "workshop/finding_views.h"
#include "workshop/form_questions.h"
#include "workshop/paused_book.h"
#include "workshop/report.h"
#include "workshop/report_kinds.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using base::ErrorCode;
using ::testing::Contains;
using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

ReportRequest asked_for(const ReportWords& words) {
  auto request = read_report_request(words);
  if (!request) {
    ADD_FAILURE() << request.error().detail;
    return {};
  }
  return *std::move(request);
}
ReportRequest list_request(const std::string& format) {
  return asked_for({"findings-list", format, "a4"});
}
ReportRequest about(const std::string& report, const std::string& subject) {
  ReportWords words{report, "json", "a4"};
  words.subject = subject;
  return asked_for(words);
}
ReportRequest pack(const std::string& format, const std::string& from = "2026-10-01",
                   const std::string& to = "2026-11-30") {
  ReportWords words{"audit-pack", format, "a4"};
  words.from = from;
  words.to = to;
  return asked_for(words);
}

/// What a rule of the workshop's own finds.
Told left_open() {
  return tell("container-inspection",
              R"({"container":"w1","closed":"no","label_legible":"yes","leak_free":"yes"})");
}

class Sheets : public ::testing::Test {
 protected:
  base::Json made(const ReportRequest& request) const { return parsed(bytes(request)); }
  std::string bytes(const ReportRequest& request) const {
    const auto file = make_report(workshop_.ports(), request);
    if (!file) {
      ADD_FAILURE() << file.error().detail;
      return "{}";
    }
    return file->bytes;
  }
  TestWorkshop workshop_;
};

TEST_F(Sheets, ListTheFindingsThatTheAppHasAtTheTimeOfTheLastEntry) {
  workshop_.enter(left_open());
  const base::Json app = *show_findings(workshop_.ports(), std::nullopt);
  const auto keys = [](const base::Json& json) {
    std::vector<std::string> found;
    for (const base::Json& one : *json.find("findings")->array()) {
      found.push_back(*one.find("key")->string() + " " + *one.find("sentence")->string());
    }
    std::sort(found.begin(), found.end());
    return found;
  };
  EXPECT_FALSE(keys(app).empty());
  EXPECT_EQ(keys(made(list_request("json"))), keys(app));
}

TEST_F(Sheets, OfFindingsAreTheSameBytesWhateverTheClockSays) {
  for (const char* format : {"pdf", "html", "csv", "json"}) {
    const std::string before = bytes(list_request(format));
    workshop_.clock.set(at("2027-11-25T08:00:00Z"));
    EXPECT_TRUE(bytes(list_request(format)) == before) << format;
    workshop_.clock.set(at(kNow));
  }
}

TEST_F(Sheets, NameWhoAcknowledgedAFindingUntilTheDayItSays) {
  workshop_.enter(left_open());
  const std::string key = value_at(made(list_request("json")), "findings/0/key");
  workshop_.enter(tell("finding-acknowledged",
                       R"({"finding":)" + key + R"(,"reason_given":"seen","until":"2026-12-24"})"));
  const base::Json list = made(list_request("json"));
  std::vector<std::string> acknowledged;
  for (const base::Json& one : *list.find("findings")->array()) {
    const base::Json* by = one.find("acknowledged");
    if (by->object() != nullptr) acknowledged.push_back(base::write_json(*by->find("until")));
  }
  EXPECT_THAT(acknowledged, ElementsAre(R"("2026-12-24")"));
}

TEST_F(Sheets, AskWhatTheFormAsksOfAGaugeInItsOwnWords) {
  const forms::Definition& form = *real_definitions().catalog.find("tool-inspection");
  const reports::FormAsked asked = questions_of(
      form, {{"inspected_class", "gauge"}, {"gauge", "g1"}}, real_definitions().reports.wording);
  EXPECT_EQ(asked.version, form.version);
  ASSERT_EQ(asked.questions.size(), 10U) << "all but class, tool, gauge and the list of points";
  EXPECT_EQ(asked.questions.front().label, "Body and threads");
  EXPECT_EQ(asked.questions.front().help, "No crack, dent, corrosion or worn thread.");
  EXPECT_THAT(asked.questions.front().answers, ElementsAre("Passed", "Failed", "Not applicable"));
  EXPECT_EQ(asked.questions.front().write, "");
  EXPECT_EQ(asked.questions.back().write, "in words");
  for (const reports::QuestionAsked& item : asked.questions) {
    EXPECT_NE(item.answers.empty(), item.write.empty()) << item.label;
  }
}

TEST_F(Sheets, SayOfAQuestionThatIsAskedInOneCaseOnlyInWhich) {
  const forms::Definition& form = *real_definitions().catalog.find("tool-inspection");
  const reports::FormAsked open = questions_of(form, {}, real_definitions().reports.wording);
  const auto gauge = std::find_if(
      open.questions.begin(), open.questions.end(),
      [](const reports::QuestionAsked& item) { return item.label.starts_with("Gauge *"); });
  ASSERT_NE(gauge, open.questions.end());
  EXPECT_THAT(gauge->label, HasSubstr("(only if What was inspected = Gauge)"));
}

/// The fields that are asked, as a form in JSON lists them.
std::vector<std::string> fields_of(const base::Json& form) {
  std::vector<std::string> fields;
  for (const base::Json& question : *form.find("questions")->array()) {
    fields.push_back(*question.find("field")->string());
  }
  return fields;
}

TEST_F(Sheets, AskOfAGaugeNeitherForANeedleNorForAHose) {
  workshop_.enter(
      tell("register-change",
           R"({"thing_class":"gauge","thing":"g1","act":"added","name":"G1","range_bar":40})"));
  const std::vector<std::string> gauge =
      fields_of(*made(about("inspection-sheet", "gauge/g1")).find("form"));
  EXPECT_THAT(gauge, Contains("body_condition"));
  EXPECT_THAT(gauge, Not(Contains("needle_condition")));
  EXPECT_THAT(gauge, Not(Contains("hose_condition")));
  EXPECT_THAT(fields_of(*made(about("inspection-sheet", "tool/r1")).find("form")),
              Contains("hose_condition"));
}

TEST_F(Sheets, OfAWalkRoundAskOfEachPlantWhatAppliesToItsType) {
  workshop_.enter(tell("register-change", R"({"thing_class":"plant","thing":"fx1","act":"added",)"
                                          R"("name":"F","plant_type":"extinguisher"})"));
  workshop_.enter(tell("register-change", R"({"thing_class":"plant","thing":"oa1","act":"added",)"
                                          R"("name":"O","plant_type":"oxygen-alarm"})"));
  const std::string csv = bytes(asked_for({"walk-round-sheet", "csv", "a4"}));
  EXPECT_THAT(csv, HasSubstr("plant-check,plant/fx1,charge_condition,"));
  EXPECT_THAT(csv, Not(HasSubstr("plant-check,plant/fx1,oxygen_percent,")));
  EXPECT_THAT(csv, HasSubstr("plant-check,plant/oa1,oxygen_percent,"));
  EXPECT_THAT(csv, Not(HasSubstr("plant-check,plant/oa1,drained,")));
}

bool has_option(const forms::Definition& form, std::string_view code) {
  return std::any_of(form.fields.begin(), form.fields.end(), [&](const auto& field) {
    return std::any_of(field.options.begin(), field.options.end(),
                       [&](const auto& option) { return option.code == code; });
  });
}

TEST_F(Sheets, LeaveOutOnlyWhatTheFormsAskOfTypesThatTheRegisterKnows) {
  const auto& reports = real_definitions().reports.definitions;
  const auto& forms = real_definitions().catalog;
  std::size_t count = 0;
  for (const auto& [report, kind] : {std::pair{"inspection-sheet", "tool-inspection"},
                                     std::pair{"walk-round-sheet", "plant-check"}}) {
    const forms::Definition& form = *forms.find(kind);
    for (const auto& section : reports.get(report).sections) {
      for (const std::string& one : section.left_out) {
        ++count;
        const std::size_t slash = one.find('/');
        const std::string field = one.substr(slash + 1);
        EXPECT_TRUE(has_option(*forms.find("register-change"), one.substr(0, slash))) << one;
        EXPECT_TRUE(std::any_of(form.fields.begin(), form.fields.end(), [&](const auto& asked) {
          return asked.name == field && !asked.required;
        })) << one;
      }
    }
  }
  EXPECT_GT(count, 10U);
}

TEST_F(Sheets, OfAWalkRoundAskOfEveryContainerUnderCare) {
  const base::Json json = made(asked_for({"walk-round-sheet", "json", "a4"}));
  EXPECT_EQ(value_at(json, "forms/0/kind"), R"("walk-round")");
  EXPECT_EQ(value_at(json, "forms/1/kind"), R"("container-inspection")");
  std::vector<std::string> asked;
  for (const base::Json& room : *json.find("rooms")->array()) {
    for (const base::Json& thing : *room.find("things")->array()) {
      asked.push_back(*thing.find("id")->string());
    }
  }
  EXPECT_THAT(asked, ElementsAre("bin", "drum", "w1", "w2"));
}

TEST_F(Sheets, OfAToolHaveItsLastInspectionsAndPoints) {
  for (const char* pressure : {"10", "20", "30", "40"}) {
    workshop_.enter(tell("tool-inspection",
                         R"({"inspected_class":"tool","tool":"r1","result":"in-service",)"
                         R"("reference_instrument":"M1","points":[{"nominal_bar":)" +
                             std::string(pressure) + R"(,"as_found_bar":)" + pressure + "}]}"));
  }
  const base::Json json = made(about("inspection-sheet", "tool/r1"));
  EXPECT_EQ(json.find("checks")->array()->size(), 3U);
  EXPECT_EQ(value_at(json, "points"), R"([{"reference_bar":40,"limit_bar":null}])");
  EXPECT_EQ(make_report(workshop_.ports(), about("inspection-sheet", "gauge/g9")).error().code,
            ErrorCode::kNotFound);
}

TEST_F(Sheets, OfABriefingNameWhoHadItAndTheRuleThatSaysUntilWhen) {
  workshop_.enter(
      tell("register-change", R"({"thing_class":"person","thing":"p3","act":"added"})"));
  const std::string until = R"(","valid_until":"2027-11-01"})";
  workshop_.enter(tell("briefing", R"({"briefed":"p3","topic":"used-oil-skin)" + until));
  workshop_.enter(tell("briefing", R"({"briefed":"p3","topic":"emergency)" + until));
  const base::Json json = made(about("briefing-sheet", "used-oil-skin"));
  ASSERT_EQ(json.find("briefed")->array()->size(), 1U);
  EXPECT_EQ(value_at(json, "briefed/0/valid_until"), R"("2027-11-01")");
  EXPECT_EQ(value_at(json, "rules/0/rule"), R"("own.briefing-expiry")");
  ReportRequest html = about("briefing-sheet", "used-oil-skin");
  html.format = ReportFormat::kHtml;
  EXPECT_THAT(bytes(html), HasSubstr("Bench A"));
  const auto unknown = make_report(workshop_.ports(), about("briefing-sheet", "bees"));
  ASSERT_FALSE(unknown.ok());
  EXPECT_EQ(unknown.error().code, ErrorCode::kNotFound);
  EXPECT_THAT(unknown.error().detail, HasSubstr("used-oil-skin"));
}

TEST_F(Sheets, ThatAreBlankAreNeverIssued) {
  for (const ReportRequest& request :
       {asked_for({"walk-round-sheet", "pdf", "a4"}), about("inspection-sheet", "tool/r1"),
        about("briefing-sheet", "used-oil-skin")}) {
    const auto issued = issue_report(workshop_.ports(), kManager, request);
    ASSERT_FALSE(issued.ok());
    EXPECT_EQ(issued.error().code, ErrorCode::kInvalid) << request.name;
  }
}

std::vector<std::string> part_names(const base::Json& json) {
  std::vector<std::string> names;
  for (const base::Json& part : *json.find("parts")->array()) {
    names.push_back(*part.find("name")->string());
  }
  return names;
}

TEST_F(Sheets, OfAPackAreTheListTheMonthsAndTheHistories) {
  EXPECT_THAT(part_names(made(pack("json"))),
              ElementsAre("findings-list", "waste-month/2026-10", "waste-month/2026-11",
                          "cylinder-history/cylinder/n1", "cylinder-history/cylinder/n2",
                          "tool-history/tool/r1"));
}

TEST_F(Sheets, OfAPackLeaveOutWhatWasRetiredBeforeItsDaysAndNoOther) {
  workshop_.enter(tell("register-change",
                       R"({"thing_class":"cylinder","thing":"n2","act":"retired"})",
                       "2026-11-20T09:00:00Z"));
  EXPECT_THAT(part_names(made(pack("json"))), Contains("cylinder-history/cylinder/n2"));
  workshop_.clock.set(at("2026-12-02T12:00:00Z"));
  workshop_.enter(drain("w1", "5", "2026-12-02T11:00:00Z"));
  EXPECT_THAT(part_names(made(pack("json", "2026-12-01", "2026-12-02"))),
              Not(Contains("cylinder-history/cylinder/n2")));
}

TEST_F(Sheets, OfAPackStandOnOneBookWhateverIsRecordedMeanwhile) {
  const Told meanwhile = drain("w1", "7");
  const std::string quiet = bytes(pack("json"));
  BusyBook book(workshop_.ports().book, [&] { workshop_.enter(meanwhile); });
  const auto file = make_report(with_book(workshop_.ports(), book), pack("json"));
  ASSERT_TRUE(file.ok()) << file.error().detail;
  EXPECT_TRUE(file->bytes == quiet);
  const base::Json json = parsed(file->bytes);
  std::vector<std::string> sizes;
  for (const base::Json& part : *json.find("parts")->array()) {
    sizes.push_back(value_at(part, "figures/book_size"));
  }
  EXPECT_THAT(sizes, Each(value_at(json, "book_size")));
}

TEST_F(Sheets, OfAPackGiveTheSameFiguresAsTheReportsAlone) {
  workshop_.enter(drain("w1", "300"));
  const base::Json json = made(pack("json"));
  ReportWords month{"waste-month", "json", "a4"};
  month.month = "2026-11";
  EXPECT_EQ(value_at(json, "parts/2/figures"), base::write_json(made(asked_for(month))));
}

TEST_F(Sheets, OfAPackSpanNoMoreMonthsThanAreMadeInReasonableTime) {
  const auto long_pack = make_report(workshop_.ports(), pack("json", "2020-01-01", "2026-11-20"));
  ASSERT_FALSE(long_pack.ok());
  EXPECT_EQ(long_pack.error().code, ErrorCode::kInvalid);
  EXPECT_THAT(long_pack.error().detail, HasSubstr("up to 36"));
}

TEST_F(Sheets, OfAPackAreIssuedWithTheirDaysAndNamedInTheNextPack) {
  const auto issued = issue_report(workshop_.ports(), kManager, pack("pdf"));
  ASSERT_TRUE(issued.ok()) << issued.error().detail;
  const base::Json json = made(pack("json"));
  EXPECT_EQ(value_at(json, "issued/0/report"), R"("audit-pack")");
  EXPECT_EQ(value_at(json, "issued/0/about/first_day"), R"("2026-10-01")");
  EXPECT_EQ(value_at(json, "issued/0/digest"), value_at(issued->receipt, "digest"));
}

TEST_F(Sheets, OfAPackHaveAYearThatIsWhollyInItAndEveryEntry) {
  workshop_.enter(left_open());
  const std::string whole = bytes(pack("json", "2026-01-01", "2026-12-31"));
  EXPECT_THAT(whole, HasSubstr("\"waste-year/2026\""));
  EXPECT_EQ(value_at(parsed(whole), "others/0/kind"), R"("container-inspection")");
  EXPECT_THAT(bytes(pack("json", "2026-01-02", "2026-12-31")),
              ::testing::Not(HasSubstr("\"waste-year/2026\"")));
}

TEST_F(Sheets, OfAPackComeInEveryFormat) {
  for (const char* format : {"pdf", "html", "csv"}) EXPECT_FALSE(bytes(pack(format)).empty());
}

}  // namespace
}  // namespace benchwarden::workshop
