#include "print/csv.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "print/csv_field.h"
#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

/// The value column of a one-cell table.
std::string value_of(const std::string& text, std::optional<std::string> raw = std::nullopt) {
  document::Table table;
  table.name = "t";
  table.columns = {{"c", "", document::Align::kText}};
  table.rows = {{{{text, std::move(raw)}}}};
  document::Document document;
  document.sections.push_back({{table}});
  const std::string csv = to_csv(document);
  const std::string head = "table,row,column,value,unit\r\nt,1,c,";
  EXPECT_THAT(csv, StartsWith(head));
  return csv.substr(head.size(), csv.size() - head.size() - 3);
}

TEST(Csv, StartsWithItsColumnNames) { EXPECT_EQ(to_csv({}), "table,row,column,value,unit\r\n"); }

TEST(Csv, GivesTheMachineValueOfEachCell) {
  const std::string csv = to_csv(sample_document());
  EXPECT_THAT(csv, HasSubstr("streams,2,volume_l,1204.5,L\r\n"));
  EXPECT_THAT(csv, HasSubstr("month,oil_l,value,38.62,L\r\n"));
  EXPECT_THAT(csv, HasSubstr("containers,1,Corrections,-0.062,L\r\n"));
  EXPECT_THAT(csv, HasSubstr("containers,1,detail,\"corrected 2026-10-14 by Bench A: 62 mL was "));
}

TEST(Csv, GivesOneLineForEachCell) {
  const std::string csv = to_csv(sample_document());
  std::size_t lines = 0;
  for (std::size_t at = csv.find("\r\n"); at != std::string::npos; at = csv.find("\r\n", at + 2)) {
    ++lines;
  }
  EXPECT_EQ(lines, 1U + 3U + 4U * 5U + 2U * 7U + 1U);
}

TEST(Csv, QuotesWhatRfc4180AsksFor) {
  EXPECT_EQ(value_of("a,b"), "\"a,b\"");
  EXPECT_EQ(value_of("say \"x\""), "\"say \"\"x\"\"\"");
  EXPECT_EQ(value_of("a\nb"), "\"a\nb\"");
  EXPECT_EQ(value_of("plain text"), "plain text");
}

TEST(Csv, StopsTextThatASpreadsheetWouldRun) {
  EXPECT_EQ(value_of("=cmd()"), "'=cmd()");
  EXPECT_EQ(value_of("+49 1"), "'+49 1");
  EXPECT_EQ(value_of("-2+3"), "'-2+3");
  EXPECT_EQ(value_of("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(value_of("\t=1"), "'\t=1");
  EXPECT_EQ(value_of("\r=1"), "\"'\r=1\"");
  EXPECT_EQ(value_of("\uFF1Dx"), "'\uFF1Dx");
  EXPECT_EQ(value_of("=\"a,b\""), "\"'=\"\"a,b\"\"\"");
}

TEST(Csv, LeavesNumbersUntouched) {
  EXPECT_EQ(value_of("minus", "-0.062"), "-0.062");
  EXPECT_EQ(value_of("12", "12"), "12");
  EXPECT_EQ(value_of("-1e5", "-1e5"), "'-1e5");
  EXPECT_EQ(value_of("-", "-"), "'-");
}

TEST(Csv, HoldsValidUtf8WithoutControls) {
  EXPECT_EQ(value_of("a\x01\xFFz"), "a\uFFFD\uFFFDz");
  EXPECT_EQ(value_of("Łódź Ω"), "Łódź Ω");
}

TEST(CsvLine, JoinsItsFieldsAndEndsTheLine) {
  EXPECT_EQ(csv_line({}), "\r\n");
  EXPECT_EQ(csv_line({"a", "", "b,c", "=d", "-1"}), "a,,\"b,c\",'=d,-1\r\n");
}

}  // namespace
}  // namespace benchwarden::print
