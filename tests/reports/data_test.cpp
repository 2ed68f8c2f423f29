#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "reports/fixture.h"
#include "reports/report_data.h"

namespace benchwarden::reports {
namespace {

using testing::HasSubstr;

/// The project's files with one text of one file replaced; an empty `from` drops the file.
std::string faults_with(const std::string& path, const std::string& from, const std::string& to) {
  base::DataFiles files;
  std::string altered;
  for (const base::DataFile& file : project_files("reports/")) {
    if (file.path != path) {
      files.push_back(file);
      continue;
    }
    if (from.empty()) continue;
    altered = std::string(file.bytes);
    const std::size_t place = altered.find(from);
    EXPECT_NE(place, std::string::npos) << from;
    altered.replace(place, from.size(), to);
    files.push_back({path, altered});
  }
  const auto loaded = load_report_data(files);
  return loaded ? "" : base::format_faults(loaded.error());
}

const std::string kMonth = "reports/definitions/waste-month.toml";
const std::string kHistory = "reports/definitions/cylinder-history.toml";

TEST(ReportData, OfTheProjectIsComplete) {
  const auto loaded = load_report_data(project_files("reports/"));
  ASSERT_TRUE(loaded.ok()) << base::format_faults(loaded.error());
  EXPECT_EQ(loaded->definitions.all().size(), 11U);
  EXPECT_EQ(loaded->definitions.get("waste-month").title, "Monthly waste report");
}

TEST(ReportData, NeedsEveryReportTheCodeCanMake) {
  EXPECT_THAT(faults_with(kHistory, "", ""),
              HasSubstr("reports/definitions/cylinder-history.toml: the report is missing"));
}

TEST(ReportData, NeedsEveryPartOfAReportOnce) {
  EXPECT_THAT(faults_with(kMonth, "[[sections]]\nid = \"quality\"\n", ""),
              HasSubstr("section 'quality' must stand here once"));
  EXPECT_THAT(faults_with(kMonth, "id = \"quality\"", "id = \"cautions\""),
              HasSubstr("section 'cautions' must stand here once"));
  EXPECT_THAT(faults_with(kMonth, "id = \"quality\"", "id = \"weather\""),
              HasSubstr("report 'waste-month' has no section 'weather'"));
}

TEST(ReportData, RefusesAColumnThatTheSectionDoesNotHave) {
  EXPECT_THAT(faults_with(kMonth, "\"low_code\"", "\"closing\""),
              HasSubstr("section 'streams' has no column 'closing'"));
  EXPECT_THAT(faults_with(kMonth, "\"low_code\"", "\"stream\""),
              HasSubstr("column 'stream' stands twice"));
  EXPECT_THAT(faults_with(kMonth, "id = \"quality\"", "id = \"quality\"\ncolumns = [\"stream\"]"),
              HasSubstr("section 'quality' has no columns to choose"));
  EXPECT_THAT(faults_with(kHistory, "columns = [\"attribute\", \"value\"]\n", ""),
              HasSubstr("section 'register' must name its columns"));
}

TEST(ReportData, WantsReportsAndCautionsToNameEachOther) {
  EXPECT_THAT(faults_with(kMonth, "\"used-oil-skin\", ", ""),
              HasSubstr("caution 'used-oil-skin' and this report must name each other"));
  EXPECT_THAT(faults_with(kMonth, "\"used-oil-skin\"", "\"used-oil\""),
              HasSubstr("there is no caution 'used-oil'"));
  EXPECT_THAT(faults_with("reports/cautions/cylinder-moving.toml", "[\"cylinder-history\"]",
                          "[\"cylinder-history\", \"waste-month\"]"),
              HasSubstr("caution 'cylinder-moving' and this report must name each other"));
}

TEST(ReportData, RefusesAReturnThatCannotBeComputed) {
  const std::string england = "reports/returns/england.toml";
  EXPECT_THAT(faults_with(england, "figure = \"collected\"", "figure = \"burnt\""),
              HasSubstr("'figure' must be one of arisen, collected, category, none"));
  EXPECT_THAT(faults_with(england, "unit = \"kg\"", "unit = \"l\""),
              HasSubstr("'unit' must be a unit of mass"));
  EXPECT_THAT(faults_with(england, "by = \"low_code\"", "by = \"colour\""),
              HasSubstr("'by' must be one of low_code, national_code"));
  EXPECT_THAT(faults_with(england, "\"producer-register\"", "\"consignee-quarter\""),
              HasSubstr("two returns have the id 'consignee-quarter'"));
  EXPECT_THAT(faults_with(england, "confidence = \"from-memory\"", "confidence = \"certain\""),
              HasSubstr("'confidence' must be one of text-seen, second-hand, from-memory"));
  EXPECT_THAT(faults_with(england, "pack = \"england\"", "pack = \"wales\""),
              HasSubstr("the file of returns is named after its pack"));
}

TEST(ReportData, TellsTheFaultsOfAllFilesAtOnce) {
  const base::DataFiles files{{"reports/wording/en.toml", "language = \"en\"\n"}, {kMonth, "id ="}};
  const auto loaded = load_report_data(files);
  ASSERT_FALSE(loaded.ok());
  const std::string faults = base::format_faults(loaded.error());
  EXPECT_THAT(faults, HasSubstr("'word.yes' is missing"));
  EXPECT_THAT(faults, HasSubstr("reports/definitions/waste-month.toml:1"));
}

}  // namespace
}  // namespace benchwarden::reports
