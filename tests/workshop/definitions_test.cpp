#include "workshop/definitions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "workshop/project_files.h"

namespace benchwarden::workshop {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::StartsWith;

constexpr const char* kDrain = "forms/definitions/oil-drained.toml";
constexpr const char* kOpenapi = "forms/wording/openapi.json";

std::string faults_of(const base::DataFiles& files) {
  const auto loaded = load_definitions(files, font_bytes(), FileOrigin::kFolder);
  return loaded ? "" : base::format_faults(loaded.error());
}
/// The file's text with the first `was` replaced; the test fails when there is none.
std::string edited(const char* path, const std::string& was, const std::string& is) {
  std::string text = bytes_of(path);
  const std::size_t found = text.find(was);
  EXPECT_NE(found, std::string::npos) << was;
  if (found != std::string::npos) text.replace(found, was.size(), is);
  return text;
}

TEST(Definitions, TheProjectsOwnFilesAreWithoutFault) {
  EXPECT_EQ(faults_of(project_files()), "");
  const Definitions& definitions = real_definitions();
  EXPECT_NE(definitions.catalog.find("oil-drained"), nullptr);
  EXPECT_NE(definitions.reports.cautions.find("used-oil-skin"), nullptr);
  EXPECT_EQ(definitions.emergency.title, "Emergency");
}

TEST(Definitions, BrokenSyntaxIsNamedByFileLineAndReason) {
  const std::string text = edited(kDrain, "version = 1", "version = = 1");
  EXPECT_THAT(faults_of(files_with(kDrain, text)),
              StartsWith("forms/definitions/oil-drained.toml:2: "));
}

TEST(Definitions, AnExportWantsWordsForEveryColumnAndTypeAndNoOthers) {
  constexpr const char* kExport = "forms/wording/export.toml";
  const std::string other = edited(kExport, "person_verified = ", "person_trusted = ");
  EXPECT_THAT(faults_of(files_with(kExport, other)),
              AllOf(HasSubstr("'person_verified' is missing"),
                    HasSubstr("'person_trusted' is not known here")));
  const std::string less = edited(kExport, "[types]\nquantity = \"number\"\n", "[types]\n");
  EXPECT_THAT(faults_of(files_with(kExport, less)), HasSubstr("'quantity' is missing"));
  const std::string none = edited(kExport, "[types]", "[sorts]");
  EXPECT_THAT(faults_of(files_with(kExport, none)), HasSubstr("[columns] and [types] are needed"));
}

TEST(Definitions, AWrongWordIsNamedByItsLine) {
  const std::string text = edited(kDrain, "unit = \"ml\"", "unit = \"thimble\"");
  EXPECT_THAT(faults_of(files_with(kDrain, text)),
              AllOf(HasSubstr("forms/definitions/oil-drained.toml:18: "), HasSubstr("thimble")));
}

TEST(Definitions, FaultsOfSeveralFilesAreToldAtOnce) {
  const std::string form = edited(kDrain, "version = 1", "version = = 1");
  const std::string emergency =
      edited("reports/cautions/emergency.toml", "title = \"Shut off\"", "titel = \"Shut off\"");
  base::DataFiles files = files_with(kDrain, form);
  for (base::DataFile& file : files) {
    if (file.path == "reports/cautions/emergency.toml") file.bytes = emergency;
    if (file.path == kOpenapi) file.bytes = "{";
  }
  const std::string faults = faults_of(files);
  EXPECT_THAT(faults, HasSubstr("forms/definitions/oil-drained.toml:2: "));
  EXPECT_THAT(faults, HasSubstr("reports/cautions/emergency.toml:"));
  EXPECT_THAT(faults, HasSubstr("titel"));
  EXPECT_THAT(faults, HasSubstr("forms/wording/openapi.json:"));
}

TEST(Definitions, AFormCannotNameACautionThatIsNotThere) {
  const std::string text = edited(kDrain, "\"used-oil-skin\"", "\"used-oil-hair\"");
  EXPECT_EQ(faults_of(files_with(kDrain, text)),
            "forms/definitions/oil-drained.toml: there is no caution 'used-oil-hair' in "
            "reports/cautions\n");
}

TEST(Definitions, ACalculationAndItsFormBelongTogether) {
  constexpr const char* kStored = "forms/calculations/stored-energy.toml";
  const auto faults_with = [&](const std::string& was, const std::string& is) {
    const std::string text = edited(kStored, was, is);
    return faults_of(files_with(kStored, text));
  };
  EXPECT_EQ(faults_with("name = \"gas_volume_l\"", "name = \"gauge_pressure_bar\""),
            "forms/calculations/stored-energy.toml: the input 'gas_volume_l' must be listed once\n"
            "forms/calculations/stored-energy.toml: the input 'gauge_pressure_bar' must be listed "
            "once\n");
  EXPECT_THAT(faults_with("name = \"gas_volume_l\"", "name = \"gas_volume_ml\""),
              HasSubstr("input 'gas_volume_ml': the calculation has no such input"));
  EXPECT_THAT(faults_with("\"pressurised-parts\"", "\"pressed-parts\""),
              HasSubstr("there is no caution 'pressed-parts'"));
  EXPECT_THAT(faults_with("default = \"1.01325\"", "default_figure = \"air\""),
              HasSubstr("there is no figure 'air'"));
}

TEST(Definitions, AMissingFileIsNamed) {
  for (const char* path : {"reports/layout/report.toml", "reports/cautions/emergency.toml",
                           kOpenapi, "forms/wording/refusals.toml", "reports/wording/en.toml",
                           "reports/definitions/waste-month.toml"}) {
    base::DataFiles files = project_files();
    files.erase(std::remove_if(files.begin(), files.end(),
                               [&](const base::DataFile& file) { return file.path == path; }),
                files.end());
    EXPECT_THAT(faults_of(files), HasSubstr(path));
  }
}

TEST(Definitions, AnEmergencyPageWithoutLinesIsRefused) {
  const std::string text =
      "title = \"Emergency\"\n[[section]]\ntitle = \"Fire\"\nlines = []\n"
      "source = \"none\"\n";
  EXPECT_THAT(faults_of(files_with("reports/cautions/emergency.toml", text)),
              HasSubstr("reports/cautions/emergency.toml:2: 'lines' is empty"));
}

}  // namespace
}  // namespace benchwarden::workshop
