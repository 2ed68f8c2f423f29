#include "print/layout.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "print/sample.h"

namespace benchwarden::print {
namespace {

using testing::HasSubstr;

std::string replaced(const std::string& from, const std::string& to) {
  std::string bytes = read_file(BENCHWARDEN_TOP "/reports/layout/report.toml");
  const std::size_t at = bytes.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return bytes.replace(at, from.size(), to);
}

std::string faults_of(const std::string& bytes) {
  const auto layout = read_layout({"report.toml", bytes});
  return layout ? "" : base::format_faults(layout.error());
}

TEST(Lengths, TurnMillimetresIntoPoints) {
  EXPECT_EQ(from_micrometres(25'400), points(72));
  EXPECT_EQ(from_micrometres(210'000), 595'276);
  EXPECT_EQ(from_micrometres(0), 0);
}

TEST(Layout, ReadsTheMeasuresOfTheProject) {
  const Layout layout = sample_layout();
  EXPECT_GE(layout.margin, from_micrometres(15'000));
  EXPECT_GE(layout.binding_edge, from_micrometres(20'000));
  EXPECT_GE(layout.table_size, points(9));
  EXPECT_GE(layout.body_size, points(10));
  EXPECT_GT(layout.heading_sizes[0], layout.heading_sizes[1]);
  EXPECT_LE(layout.shade_percent, 15);
}

TEST(Layout, RefusesMeasuresNobodyCanRead) {
  EXPECT_THAT(faults_of(replaced("table_pt = \"9\"", "table_pt = \"8.9\"")),
              HasSubstr("table_pt: a number in quotes from 9 to 11"));
  EXPECT_THAT(faults_of(replaced("margin_mm = \"15\"", "margin_mm = \"14.9\"")),
              HasSubstr("margin_mm"));
  EXPECT_THAT(faults_of(replaced("shade_percent = 8", "shade_percent = 16")),
              HasSubstr("shade_percent: a whole number from 0 to 15"));
  EXPECT_THAT(faults_of(replaced("rule_pt = \"0.5\"", "rule_pt = \"0.25\"")), HasSubstr("rule_pt"));
}

TEST(Layout, NamesWhatIsMissingAndWhatIsUnknown) {
  EXPECT_THAT(faults_of(replaced("[lines]", "[rules]")), HasSubstr("[lines] is missing"));
  EXPECT_THAT(faults_of(replaced("body_pt", "bdoy_pt")), HasSubstr("bdoy_pt"));
  EXPECT_THAT(faults_of(replaced("[\"13\", \"11.5\", \"10.5\", \"10\"]", "[\"13\"]")),
              HasSubstr("four sizes"));
}

TEST(Layout, ReportsEveryFaultAtOnce) {
  const auto layout = read_layout({"report.toml", ""});
  ASSERT_FALSE(layout);
  EXPECT_EQ(layout.error().size(), 4U);
}

}  // namespace
}  // namespace benchwarden::print
