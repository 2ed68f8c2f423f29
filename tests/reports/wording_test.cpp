#include "reports/wording.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "reports/fixture.h"
#include "reports/known_sections.h"

namespace benchwarden::reports {
namespace {

using testing::HasSubstr;

std::string own_wording() {
  return std::string(project_files("reports/wording/en.toml").at(0).bytes);
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t place = text.find(from);
  EXPECT_NE(place, std::string::npos) << from;
  return text.replace(place, from.size(), to);
}

std::string wording_faults(const std::string& wording) {
  const auto loaded = ReportWording::load({{"reports/wording/en.toml", wording}});
  return loaded ? "" : base::format_faults(loaded.error());
}

std::string all_sources() {
  std::string sources;
  const std::filesystem::path top(BENCHWARDEN_TOP);
  for (const auto& folder : {top / "src/reports", top / "src/workshop"}) {
    for (const auto& item : std::filesystem::directory_iterator(folder)) {
      if (item.path().filename() == "wording_keys.h") continue;
      std::ifstream stream(item.path());
      sources.append(std::istreambuf_iterator<char>(stream), {});
    }
  }
  return sources;
}

TEST(ReportWording, OfTheProjectIsComplete) { EXPECT_EQ(wording_faults(own_wording()), ""); }

TEST(ReportWording, StopsTheStartWhereASentenceIsMissing) {
  EXPECT_THAT(wording_faults(replaced(own_wording(), "yes = \"yes\"\n", "")),
              HasSubstr("the sentence 'word.yes' is missing"));
  EXPECT_THAT(wording_faults(""), HasSubstr("'column.container' is missing"));
  const auto none = ReportWording::load({});
  ASSERT_FALSE(none.ok());
  EXPECT_GT(none.error().size(), kWordingKeys.size());
}

TEST(ReportWording, RefusesAnUnknownAndAnEmptySentenceWithItsLine) {
  EXPECT_THAT(wording_faults(own_wording() + "surplus = \"x\"\n"),
              HasSubstr("'signature.surplus' is not known here"));
  EXPECT_THAT(wording_faults(replaced(own_wording(), "yes = \"yes\"", "yes = \"\"")),
              HasSubstr("'word.yes' is empty"));
  EXPECT_THAT(wording_faults(replaced(own_wording(), "yes = \"yes\"", "yes = 1")),
              HasSubstr("'word.yes' must be text"));
}

TEST(ReportWording, RefusesASentenceThatLosesAPlaceholderOrInventsOne) {
  EXPECT_THAT(wording_faults(replaced(own_wording(), "page {page} of {pages}", "page {page}")),
              HasSubstr("'page.page_of' must hold {page} {pages}"));
  EXPECT_THAT(wording_faults(replaced(own_wording(), "yes = \"yes\"", "yes = \"{verily}\"")),
              HasSubstr("'word.yes' must hold no placeholder"));
}

TEST(ReportWording, NamesMonthsAndFillsSentences) {
  const ReportWording& wording = project_data().wording;
  EXPECT_EQ(wording.month({2026, 10}), "October 2026");
  EXPECT_EQ(wording.month({2027, 1}), "January 2027");
  EXPECT_EQ(wording.text("word.id_and_name", {{"id", "w1"}, {"name", "Oil drum"}}), "w1, Oil drum");
  EXPECT_EQ(wording.text("page.page_of"), "page {page} of {pages}");
}

TEST(ReportWording, HoldsNoSentenceThatTheCodeNeverAsksFor) {
  const std::string sources = all_sources();
  for (const WordingKey& key : kWordingKeys) {
    EXPECT_THAT(sources, HasSubstr("\"" + std::string(key.name) + "\""));
  }
}

TEST(ReportWording, HasColumnsThatSomeSectionCanPrint) {
  for (const KnownColumn& column : known_columns()) {
    bool used = false;
    for (const KnownSection& section : known_sections()) {
      used = used || std::count(section.columns.begin(), section.columns.end(), column.name) > 0;
    }
    EXPECT_TRUE(used) << column.name;
  }
}

}  // namespace
}  // namespace benchwarden::reports
