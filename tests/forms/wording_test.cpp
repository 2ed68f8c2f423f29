#include "forms/wording.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchwarden::forms {
namespace {

using testing::HasSubstr;

constexpr const char* kPath = "forms/wording/refusals.toml";

/// A sentence for every code but `left_out`.
std::string all_but(entries::RefusalCode left_out) {
  std::string toml;
  for (const entries::RefusalCode code : entries::all_refusal_codes()) {
    if (code == left_out) continue;
    toml += std::string(entries::refusal_key(code)) + " = \"{field}: {value}, {accepted}\"\n";
  }
  return toml;
}

std::string faults_of(const std::string& toml) {
  const auto wording = Wording::load({{kPath, toml}});
  return wording ? "" : base::format_faults(wording.error());
}

TEST(Wording, WantsASentenceForEveryCode) {
  for (const entries::RefusalCode code : entries::all_refusal_codes()) {
    EXPECT_THAT(faults_of(all_but(code)),
                HasSubstr("'" + std::string(entries::refusal_key(code)) + "' is missing"));
  }
}

TEST(Wording, RefusesASentenceWithoutACode) {
  const std::string toml =
      all_but(entries::RefusalCode::kMissing) + "missing = \"x\"\nodd = \"y\"\n";
  EXPECT_THAT(faults_of(toml), HasSubstr(":33: 'odd' is not known here"));
}

TEST(Wording, RefusesAnUnknownPlaceholder) {
  const std::string toml =
      all_but(entries::RefusalCode::kMissing) + "missing = \"{who} is gone\"\n";
  EXPECT_EQ(faults_of(toml), std::string(kPath) +
                                 ":32: 'missing' has a placeholder other than {field}, {value}, "
                                 "{accepted}\n");
}

TEST(Wording, IsMissedWhenTheFileIsNotThere) {
  const auto wording = Wording::load({});
  ASSERT_FALSE(wording.ok());
  EXPECT_EQ(base::format_faults(wording.error()), std::string(kPath) + ": the file is missing\n");
}

TEST(Wording, FillsInFieldValueAndWhatIsAccepted) {
  const std::string toml =
      all_but(entries::RefusalCode::kMissing) + "missing = \"{field}|{accepted}\"\n";
  const auto wording = Wording::load({{kPath, toml}});
  ASSERT_TRUE(wording.ok());
  EXPECT_EQ(wording->sentence({"/fields/loads/0/volume_ml", entries::RefusalCode::kMissing, "",
                               "volume_ml, mass_kg"}),
            "loads/0/volume_ml|volume_ml, mass_kg");
  EXPECT_EQ(wording->sentence({"", entries::RefusalCode::kMissing, "", "{…}"}), "|{…}");
}

}  // namespace
}  // namespace benchwarden::forms
