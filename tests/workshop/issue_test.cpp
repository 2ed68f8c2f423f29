#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/sha256.h"
#include "workshop/paused_book.h"
#include "workshop/report.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

using base::ErrorCode;

ReportRequest november() {
  return *read_report_request(
      {.name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-11"});
}

base::Json issued(const TestWorkshop& workshop, const ReportRequest& request) {
  const auto answer = issue_report(workshop.ports(), kManager, request);
  if (!answer) {
    ADD_FAILURE() << answer.error().detail;
    return nullptr;
  }
  EXPECT_FALSE(answer->already_there);
  return answer->receipt;
}

std::string pdf_of(const TestWorkshop& workshop, const base::Json& answer) {
  const auto id = base::parse_uuid(*answer.find("id")->string());
  const auto pdf = issued_file(workshop.ports(), *id, IssuedPart::kPdf);
  if (!pdf) {
    ADD_FAILURE() << pdf.error().detail;
    return "";
  }
  return *pdf;
}

TEST(Issue, RecordsWhatWasIssuedAndOnWhichBookItStands) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const book::TreeHead head = workshop.ports().book.head();
  const base::Json answer = issued(workshop, november());
  EXPECT_EQ(workshop.size(), head.size + 1);
  EXPECT_EQ(value_at(answer, "seq"), std::to_string(head.size + 1));
  const auto entry = workshop.ports().book.entry(head.size + 1);
  ASSERT_TRUE(entry.ok());
  EXPECT_EQ(entry->content.kind, "report-issued");
  EXPECT_EQ(entry->signature.person, "p1");
  const base::Json fields = entries::fields_json(entry->content.fields);
  EXPECT_EQ(value_at(fields, "report"), R"("waste-month")");
  EXPECT_EQ(value_at(fields, "month"), R"("2026-11")");
  EXPECT_EQ(value_at(fields, "paper"), R"("a4")");
  EXPECT_EQ(value_at(fields, "book_size"), std::to_string(head.size));
  EXPECT_EQ(value_at(fields, "book_root"), "\"" + base::to_hex(head.root) + "\"");
  EXPECT_EQ(value_at(fields, "report_digest"), value_at(answer, "digest"));
}

TEST(Issue, KeepsTheBytesWhoseDigestTheEntryNames) {
  TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const std::string preview = make_report(workshop.ports(), november())->bytes;
  const base::Json answer = issued(workshop, november());
  const std::string pdf = pdf_of(workshop, answer);
  EXPECT_EQ("\"" + base::to_hex(base::sha256(pdf)) + "\"", value_at(answer, "digest"));
  EXPECT_FALSE(pdf == preview) << "an issued report names its entry, a preview says it is none";
  workshop.enter(drain("w1", "5"));
  workshop.open();
  EXPECT_TRUE(pdf_of(workshop, answer) == pdf) << "it stays as it was issued";
}

TEST(Issue, HoldsUpNobodyAndNamesTheBookItStandsOn) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const book::TreeHead head = workshop.ports().book.head();
  const Told meanwhile = drain("w1", "7");
  BusyBook book(workshop.ports().book, [&] { workshop.enter(meanwhile); });
  const auto answer = issue_report(with_book(workshop.ports(), book), kManager, november());
  ASSERT_TRUE(answer.ok()) << answer.error().detail;
  EXPECT_EQ(book.held_up(), 0);
  EXPECT_EQ(value_at(answer->receipt, "seq"), std::to_string(head.size + 2));
  const auto entry = workshop.ports().book.entry(head.size + 2);
  const base::Json fields = entries::fields_json(entry->content.fields);
  EXPECT_EQ(value_at(fields, "book_size"), std::to_string(head.size));
  EXPECT_EQ(value_at(fields, "book_root"), "\"" + base::to_hex(head.root) + "\"");
}

constexpr const char* kIssueId = "0193619e-0a3b-7c44-8d21-5b0f6c2f1a01";

base::Result<Issued> issue(const TestWorkshop& workshop, const ReportWords& words) {
  return issue_report(workshop.ports(), kManager, *read_report_request(words));
}

TEST(Issue, AskedForAgainUnderTheSameIdIsAnsweredAsTheFirstTime) {
  const TestWorkshop workshop;
  const ReportWords words{
      .name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-11", .id = kIssueId};
  const auto first = issue(workshop, words);
  ASSERT_TRUE(first.ok()) << first.error().detail;
  EXPECT_EQ(value_at(first->receipt, "id"), "\"" + std::string(kIssueId) + "\"");
  workshop.enter(drain("w1", "5"));
  const std::uint64_t size = workshop.size();
  const auto again = issue(workshop, words);
  ASSERT_TRUE(again.ok()) << again.error().detail;
  EXPECT_FALSE(first->already_there);
  EXPECT_TRUE(again->already_there);
  EXPECT_EQ(again->receipt, first->receipt);
  EXPECT_EQ(workshop.size(), size);
}

TEST(Issue, OfSomethingElseUnderTheSameIdIsAConflict) {
  const TestWorkshop workshop;
  ASSERT_TRUE(issue(workshop, {.name = "waste-month",
                               .format = "pdf",
                               .paper = "a4",
                               .month = "2026-11",
                               .id = kIssueId})
                  .ok());
  const std::string oil = workshop.enter(drain("w1", "5"));
  const std::uint64_t size = workshop.size();
  for (const ReportWords& words : {ReportWords{.name = "waste-month",
                                  .format = "pdf",
                                  .paper = "letter",
                                  .month = "2026-11",
                                  .id = kIssueId},
                                   ReportWords{.name = "waste-month",
                                   .format = "pdf",
                                   .paper = "a4",
                                   .month = "2026-10",
                                   .id = kIssueId},
                                   ReportWords{.name = "cylinder-history",
                                   .format = "pdf",
                                   .paper = "a4",
                                   .subject = "n1",
                                   .id = kIssueId},
                                   ReportWords{.name = "waste-month",
                                   .format = "pdf",
                                   .paper = "a4",
                                   .month = "2026-11",
                                   .id = oil}}) {
    const auto answer = issue(workshop, words);
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().code, ErrorCode::kConflict);
  }
  EXPECT_EQ(workshop.size(), size);
}

TEST(Issue, WaitsUntilTheMonthHasBegunWhereTheWorkshopIs) {
  TestWorkshop workshop;
  const ReportWords december{
      .name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-12"};
  workshop.clock.set(at("2026-11-30T22:59:59Z"));
  const auto refused = issue(workshop, december);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::kInvalid);
  EXPECT_EQ(refused.error().detail, "month '2026-12' has not begun; accepted: 2026-11 or earlier");
  workshop.clock.set(at("2026-11-30T23:00:00Z"));
  EXPECT_TRUE(issue(workshop, december).ok()) << "midnight in Berlin";
}

TEST(Issue, OfTheCurrentMonthSaysThatEntriesMayStillCome) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "620"));
  const auto html = read_report_request(
      {.name = "waste-month", .format = "html", .paper = "a4", .month = "2026-11"});
  EXPECT_THAT(make_report(workshop.ports(), *html)->bytes,
              ::testing::HasSubstr("before the month ends: entries may still come"));
  issued(workshop, november());
}

TEST(Issue, OfACylinderNamesIt) {
  const TestWorkshop workshop;
  workshop.enter(tell("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":180})"));
  const auto request = read_report_request(
      {.name = "cylinder-history", .format = "pdf", .paper = "letter", .subject = "n1"});
  issued(workshop, *request);
  const auto entry = workshop.ports().book.entry(workshop.size());
  const base::Json fields = entries::fields_json(entry->content.fields);
  EXPECT_EQ(value_at(fields, "cylinder"), R"("n1")");
  EXPECT_EQ(value_at(fields, "paper"), R"("letter")");
}

TEST(Issue, OfARetiredCylinderIsStillPossible) {
  const TestWorkshop workshop;
  workshop.enter(
      tell("register-change", R"({"thing_class":"cylinder","thing":"n1","act":"retired"})"));
  issued(workshop,
         *read_report_request(
             {.name = "cylinder-history", .format = "pdf", .paper = "a4", .subject = "n1"}));
}

TEST(Issue, OfAnUnknownCylinderRecordsNothing) {
  const TestWorkshop workshop;
  const std::uint64_t size = workshop.size();
  const auto request = read_report_request(
      {.name = "cylinder-history", .format = "pdf", .paper = "a4", .subject = "n9"});
  EXPECT_EQ(issue_report(workshop.ports(), kManager, *request).error().code, ErrorCode::kNotFound);
  EXPECT_EQ(workshop.size(), size);
}

TEST(Issue, IsRefusedWithOtherDataFilesThanTheBuiltInOnes) {
  const auto edited = load_definitions(project_files(), font_bytes(), FileOrigin::kFolder);
  ASSERT_TRUE(edited.ok());
  const TestWorkshop workshop(TestWorkshop::Register::kEntered, *edited);
  const std::uint64_t size = workshop.size();
  EXPECT_EQ(issue_report(workshop.ports(), kManager, november()).error().code,
            ErrorCode::kForbidden);
  EXPECT_EQ(workshop.size(), size);
  const auto html = read_report_request(
      {.name = "waste-month", .format = "html", .paper = "a4", .month = "2026-11"});
  const std::string marked = make_report(workshop.ports(), *html)->bytes;
  const TestWorkshop built_in;
  EXPECT_FALSE(marked == make_report(built_in.ports(), *html)->bytes) << "and a preview is marked";
}

TEST(Issue, OnlyAnIssuedReportHasAPdf) {
  const TestWorkshop workshop;
  const std::string oil = workshop.enter(drain("w1", "620"));
  EXPECT_EQ(issued_file(workshop.ports(), *base::parse_uuid(oil), IssuedPart::kPdf).error().code,
            ErrorCode::kNotFound);
  const auto unknown = base::parse_uuid("0193619e-0a3b-7c44-8d21-5b0f6c2f1a01");
  EXPECT_EQ(issued_file(workshop.ports(), *unknown, IssuedPart::kPdf).error().code,
            ErrorCode::kNotFound);
}

TEST(Issue, CannotBeCorrected) {
  const TestWorkshop workshop;
  const base::Json answer = issued(workshop, november());
  EXPECT_THAT(faults_of(workshop.send(strike_out(*answer.find("id")->string()))),
              ::testing::ElementsAre("/corrects unknown_entry"));
}

}  // namespace
}  // namespace benchwarden::workshop
