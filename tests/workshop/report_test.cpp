#include "workshop/report.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/sha256.h"
#include "workshop/paused_book.h"
#include "workshop/test_workshop.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

using base::ErrorCode;
using ::testing::HasSubstr;
using ::testing::StartsWith;

ReportRequest request_of(const ReportWords& words) {
  auto request = read_report_request(words);
  if (!request) {
    ADD_FAILURE() << request.error().detail;
    return {};
  }
  return *std::move(request);
}
ReportRequest november(const std::string& format) {
  return request_of({.name = "waste-month", .format = format, .paper = "a4", .month = "2026-11"});
}
ReportRequest cylinder_report(const std::string& format, const std::string& id = "n1") {
  return request_of(
      {.name = "cylinder-history", .format = format, .paper = "letter", .subject = id});
}

/// A workshop with a slip that was corrected, a check, and a drain of the month before.
class Report : public ::testing::Test {
 protected:
  Report() {
    workshop_.enter(drain("w1", "300", "2026-10-30T09:00:00Z"));
    const std::string slip =
        workshop_.enter(drain("w1", "620", "2026-11-10T09:00:00Z"), kTechnician);
    workshop_.enter(correct(slip, R"({"volume_ml":62})"));
    workshop_.enter(tell("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":180})"));
  }
  ReportFile made(const ReportRequest& request) const {
    auto file = make_report(workshop_.ports(), request);
    if (!file) {
      ADD_FAILURE() << file.error().detail;
      return {};
    }
    return *std::move(file);
  }
  TestWorkshop workshop_;
};

TEST_F(Report, ComesInFourFormatsEachWithItsTypeAndName) {
  const ReportFile pdf = made(november("pdf"));
  EXPECT_THAT(pdf.bytes, StartsWith("%PDF-"));
  EXPECT_EQ(pdf.content_type, "application/pdf");
  EXPECT_EQ(pdf.file_name, "waste-month-2026-11.pdf");
  EXPECT_EQ(pdf.security_policy, "");

  const ReportFile html = made(november("html"));
  EXPECT_THAT(html.bytes, StartsWith("<!DOCTYPE html>"));
  EXPECT_EQ(html.file_name, "waste-month-2026-11.html");
  EXPECT_THAT(html.security_policy, StartsWith("default-src 'none'; style-src 'sha256-"));

  const ReportFile csv = made(november("csv"));
  EXPECT_THAT(csv.content_type, StartsWith("text/csv"));
  EXPECT_THAT(csv.bytes, HasSubstr("\r\n"));

  const ReportFile json = made(november("json"));
  EXPECT_EQ(json.content_type, "application/json");
  EXPECT_EQ(value_at(parsed(json.bytes), "month"), R"("2026-11")");
}

TEST_F(Report, GivesEqualBytesForAnEqualBook) {
  for (const char* format : {"pdf", "html", "csv", "json"}) {
    SCOPED_TRACE(format);
    const std::string waste = made(november(format)).bytes;
    const std::string history = made(cylinder_report(format)).bytes;
    workshop_.clock.set(at("2026-11-25T08:00:00Z"));
    EXPECT_TRUE(made(november(format)).bytes == waste) << "the clock has no part in it";
    workshop_.open();
    EXPECT_TRUE(made(november(format)).bytes == waste) << "nor a restart";
    EXPECT_TRUE(made(cylinder_report(format)).bytes == history);
  }
}

TEST_F(Report, ChangesWithTheBook) {
  const std::string before = made(november("pdf")).bytes;
  workshop_.enter(drain("w2", "5"));
  EXPECT_FALSE(made(november("pdf")).bytes == before);
}

TEST_F(Report, CountsAsCorrected) {
  const base::Json json = parsed(made(november("json")).bytes);
  EXPECT_EQ(value_at(json, "streams/0/stream"), R"("oil")");
  EXPECT_EQ(value_at(json, "streams/0/arisen"), "62");
  EXPECT_EQ(value_at(json, "streams/0/standing"), "362");
}

TEST_F(Report, ReachesToTheLastRecordingThoughASenderClockRunsAhead) {
  const std::string slip = workshop_.enter(drain("w1", "5", "2026-11-20T12:09:00Z"));
  const auto reaches_to = [&](const std::string& path, const ReportRequest& request) {
    return value_at(parsed(made(request).bytes), path);
  };
  EXPECT_EQ(reaches_to("as_of", november("json")), R"("2026-11-20T13:00:00+01:00")");
  EXPECT_EQ(reaches_to("as_of", cylinder_report("json")), R"("2026-11-20T13:00:00+01:00")");
  EXPECT_EQ(reaches_to("streams/0/arisen", november("json")), "67") << "it counts all the same";
  workshop_.enter(strike_out(slip));
  EXPECT_EQ(reaches_to("until", november("json")), R"("2026-11-20T13:00:00.001+01:00")")
      << "what was struck out does not count";
}

TEST_F(Report, NamesPersonsAsTheNameBookDoes) {
  EXPECT_THAT(made(november("html")).bytes, HasSubstr("Bench A"));
}

TEST_F(Report, APreviewWritesNothing) {
  const book::TreeHead before = workshop_.ports().book.head();
  for (const char* format : {"pdf", "html", "csv", "json"}) {
    const ReportFile file = made(november(format));
    made(cylinder_report(format));
    EXPECT_EQ(workshop_.ports().book.attachment(base::sha256(file.bytes)).error().code,
              ErrorCode::kNotFound);
  }
  EXPECT_EQ(workshop_.ports().book.head(), before);
}

TEST_F(Report, HoldsUpNobodyWhoRecordsMeanwhileAndShowsNothingOfIt) {
  for (const ReportRequest& request : {november("csv"), cylinder_report("csv")}) {
    const std::string quiet = made(request).bytes;
    const Told meanwhile = drain("w1", "7");
    BusyBook book(workshop_.ports().book, [&] { workshop_.enter(meanwhile); });
    const auto file = make_report(with_book(workshop_.ports(), book), request);
    ASSERT_TRUE(file.ok()) << file.error().detail;
    EXPECT_EQ(book.held_up(), 0);
    EXPECT_TRUE(file->bytes == quiet);
  }
}

TEST_F(Report, IsRefusedWhileTooManyAreBeingMade) {
  base::Gate narrow({1, 0, {}});
  const Ports& usual = workshop_.ports();
  const Ports ports{usual.book,      usual.live, usual.definitions, usual.clock,      usual.names,
                    usual.admission, narrow,     usual.packs,       usual.signing_key};
  auto other = narrow.enter();
  EXPECT_EQ(make_report(ports, november("json")).error().code, ErrorCode::kUnavailable);
  EXPECT_EQ(issue_report(ports, kManager, november("pdf")).error().code, ErrorCode::kUnavailable);
  EXPECT_EQ(show_levels(ports, Viewpoint{}).error().code, ErrorCode::kUnavailable);
  EXPECT_TRUE(show_levels(ports, std::nullopt).ok()) << "what stands now is always answered";
  other.reset();
  EXPECT_TRUE(make_report(ports, november("json")).ok());
  EXPECT_TRUE(issue_report(ports, kManager, november("pdf")).ok());
  EXPECT_TRUE(show_levels(ports, Viewpoint{}).ok());
}

TEST_F(Report, OfAnUnknownCylinderIsNotFound) {
  for (const char* format : {"pdf", "html", "csv", "json"}) {
    const auto file = make_report(workshop_.ports(), cylinder_report(format, "n9"));
    ASSERT_FALSE(file.ok());
    EXPECT_EQ(file.error().code, ErrorCode::kNotFound);
    EXPECT_EQ(file.error().detail, "there is no cylinder 'n9' in the register");
  }
}

TEST_F(Report, OfACylinderShowsACheckThatWasMovedThereByTheSecondOfThreeCorrections) {
  const std::string slip =
      workshop_.enter(tell("cylinder-check", R"({"cylinder":"n1","gauge_pressure_bar":51})"));
  workshop_.enter(correct(slip, R"({"gauge_pressure_bar":52})"));
  workshop_.enter(correct(slip, R"({"cylinder":"n2"})"));
  workshop_.enter(correct(slip, R"({"gauge_pressure_bar":53})"));
  const base::Json json = parsed(made(cylinder_report("json", "n2")).bytes);
  EXPECT_EQ(value_at(json, "checks/0/fields/gauge_pressure_bar"), "53");
  EXPECT_EQ(value_at(json, "checks/0/corrections/2/by/person"), R"("p1")");
  EXPECT_EQ(value_at(json, "checks/1"), "");
}

TEST(ReportLayout, ThatCannotBeMadeIsOurOwnFaultAndNotTheAskers) {
  const auto without_font = load_definitions(project_files(), "", FileOrigin::kBuiltIn);
  ASSERT_TRUE(without_font.ok());
  const TestWorkshop workshop(TestWorkshop::Register::kEntered, *without_font);
  EXPECT_TRUE(make_report(workshop.ports(), november("html")).ok());
  const auto made = make_report(workshop.ports(), november("pdf"));
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.error().code, ErrorCode::kInternal);
  const auto issued = issue_report(workshop.ports(), kManager, november("pdf"));
  ASSERT_FALSE(issued.ok());
  EXPECT_EQ(issued.error().code, ErrorCode::kInternal);
}

struct BadWords {
  const char* what;
  ReportWords words;
  ErrorCode code;
  const char* says;
};

TEST(ReportRequest, NamesTheWordThatIsWrongAndWhatWouldBeAccepted) {
  const std::vector<BadWords> all{
      {"name", {"waste-week", "pdf", "a4", "2026-11", {}}, ErrorCode::kNotFound, "waste-month"},
      {"format", {"waste-month", "docx", "a4", "2026-11", {}}, ErrorCode::kInvalid, "pdf, html"},
      {"paper", {"waste-month", "pdf", "a5", "2026-11", {}}, ErrorCode::kInvalid, "a4, letter"},
      {"no month", {"waste-month", "pdf", "a4", {}, {}}, ErrorCode::kInvalid, "month=YYYY-MM"},
      {"month and subject",
       {.name = "waste-month", .format = "pdf", .paper = "a4", .month = "2026-11", .subject = "n1"},
       ErrorCode::kInvalid,
       "nothing else"},
      {"month 13", {"waste-month", "pdf", "a4", "2026-13", {}}, ErrorCode::kInvalid, "2026-13"},
      {"no subject", {"cylinder-history", "pdf", "a4", {}, {}}, ErrorCode::kInvalid, "subject="},
      {"month for a cylinder",
       {.name = "cylinder-history",
        .format = "pdf",
        .paper = "a4",
        .month = "2026-11",
        .subject = "n1"},
       ErrorCode::kInvalid,
       "subject="}};
  for (const BadWords& bad : all) {
    SCOPED_TRACE(bad.what);
    const auto request = read_report_request(bad.words);
    ASSERT_FALSE(request.ok());
    EXPECT_EQ(request.error().code, bad.code);
    EXPECT_THAT(request.error().detail, HasSubstr(bad.says));
  }
}

}  // namespace
}  // namespace benchwarden::workshop
