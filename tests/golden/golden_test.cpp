// What stands on paper, word for word: the text of each report as another program reads it from the
// PDF, held against the file of that name beside this one. With BENCHWARDEN_GOLDEN=write the files
// are written anew; each change of them is to be read.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "golden/printed.h"
#include "workshop/report.h"
#include "workshop/test_workshop.h"

namespace benchwarden::workshop {
namespace {

const std::string kFolder = BENCHWARDEN_TOP "/tests/golden/";

std::string contents_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void expect_printed(const TestWorkshop& workshop, const std::string& name,
                    const ReportWords& words) {
  SCOPED_TRACE(name);
  const auto request = read_report_request(words);
  ASSERT_TRUE(request.ok()) << request.error().detail;
  const auto made = make_report(workshop.ports(), *request);
  ASSERT_TRUE(made.ok()) << made.error().detail;
  const std::string text = printed_text(made->bytes);
  const std::string path = kFolder + name + ".txt";
  const char* wanted = std::getenv("BENCHWARDEN_GOLDEN");  // NOLINT(concurrency-mt-unsafe)
  if (wanted != nullptr && std::string(wanted) == "write") {
    std::ofstream(path, std::ios::binary) << text;
    return;
  }
  EXPECT_EQ(text, contents_of(path));
}

/// Ids, and so the root of the book, are the same in whatever order the tests run.
class Golden : public ::testing::Test {
 protected:
  Golden() { give_ids_anew(); }
};

ReportWords month(const std::string& month) { return {.name = "waste-month", .month = month}; }

TEST_F(Golden, OfAMonthInWhichNothingHappened) {
  const TestWorkshop workshop;
  expect_printed(workshop, "month-empty", month("2026-10"));
}

TEST_F(Golden, OfABookWithoutAnyEntry) {
  const TestWorkshop workshop(TestWorkshop::Register::kEmpty);
  expect_printed(workshop, "month-of-no-book", month("2026-10"));
}

TEST_F(Golden, OfAMonthWithOneEntry) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "62.5", "2026-10-14T09:30:00Z"), kTechnician);
  expect_printed(workshop, "month-of-one-entry", month("2026-10"));
}

/// Latin with marks, Greek and Cyrillic are in the font; what is not shows as a box, and the foot
/// says how many signs are missing.
TEST_F(Golden, OfNamesInSeveralScripts) {
  const TestWorkshop workshop;
  const auto put = [&](const std::string& id, const std::string& name) {
    workshop.enter(tell("register-change", R"({"thing_class":"container","thing":")" + id +
                                               R"(","act":"changed",)" + R"("name":")" + name +
                                               "\"}"));
  };
  put("w1", "Ölfaß „Łódź“ № 1");
  put("w2", "Δοχείο λαδιού");
  put("drum", "Бочка для ветоши");
  put("bin", "油布桶");
  workshop.enter(drain("w1", "62", "2026-11-10T09:00:00Z"));
  workshop.enter(drain("w2", "1250", "2026-11-10T10:00:00Z"));
  expect_printed(workshop, "month-of-several-scripts", month("2026-11"));
}

/// As long as the form lets a note and a reason be, with what could harm a page or a spreadsheet.
TEST_F(Golden, OfVeryLongNotes) {
  const TestWorkshop workshop;
  std::string note = "=1+1 <b>bold</b> & ";
  while (note.size() < 480) note += "noblanks"[note.size() % 8];
  const std::string slip =
      workshop.enter(tell("cylinder-check",
                          R"({"cylinder":"n1","gauge_pressure_bar":180,"note":")" + note + "\"}"),
                     kTechnician);
  workshop.enter(correct(slip, R"({"gauge_pressure_bar":181})"));
  expect_printed(workshop, "history-of-long-notes", {.name = "cylinder-history", .subject = "n1"});
}

/// Summer time ends on 25 October 2026 at 03:00 in Berlin; two entries stand at the same time of
/// the clock, an hour apart. Then the site moves its clocks to Lisbon's.
TEST_F(Golden, OfAMonthInWhichTheClocksChange) {
  const TestWorkshop workshop;
  workshop.enter(drain("w1", "100", "2026-10-25T00:30:00Z"));
  workshop.enter(drain("w1", "200", "2026-10-25T01:30:00Z"));
  workshop.enter(drain("w1", "300", "2026-10-31T23:30:00Z"));
  expect_printed(workshop, "month-of-winter-time", month("2026-10"));
  workshop.enter(tell("register-change",
                      R"({"thing_class":"workshop","thing":"site","act":"changed",)"
                      R"("time_zone":"Europe/Lisbon"})"));
  expect_printed(workshop, "month-of-another-zone", month("2026-10"));
}

}  // namespace
}  // namespace benchwarden::workshop
