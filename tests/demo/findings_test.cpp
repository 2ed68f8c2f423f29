// The demo shows what its stories say, and nothing else: the findings at its end are those of
// demo/findings.toml, with their dates and numbers, whatever day it ends on.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "demo/expected.h"
#include "sqlite/temporary_folder.h"
#include "tallies/facts.h"
#include "tell.h"
#include "workshop/fold.h"
#include "workshop/judgement.h"
#include "workshop/open_book.h"
#include "workshop/project_files.h"

namespace benchwarden::demo {
namespace {

const std::string kFiles = BENCHWARDEN_TOP "/demo/";

class IdsAsNames : public workshop::NameBook {
 public:
  [[nodiscard]] std::string display_name(std::string_view person) const override {
    return std::string(person);
  }
  [[nodiscard]] std::optional<std::string> active_role(std::string_view) const override {
    return std::nullopt;  // the demo tells nothing without a PIN
  }
};

/// "2026-11-25 19:00", where the workshop is.
base::Instant moment_of(const std::string& written) {
  const base::CivilDate day = *base::parse_date(written.substr(0, 10));
  return Almanac(day, *base::Zone::find("Europe/London")).moment(" " + written.substr(11));
}

/// By the rules of the jurisdiction that the demo's site is in.
std::vector<findings::Finding> judged(const tallies::State& state, base::Instant at) {
  const rules::Scene scene(state, at, workshop::zone_of(state));
  const auto pack = tallies::word(scene.workshop(), "rule_pack");
  return rules::judge(workshop::rules_of(workshop::real_definitions(), pack), scene).findings;
}

/// The whole demo in a book of its own, ended on a day.
class Told {
 public:
  explicit Told(base::Instant now)
      : now_(now),
        open_(*workshop::OpenBook::open(folder_.path(), workshop::real_definitions(), clock_,
                                        names_)),
        almanac_(tell(open_->ports(), clock_, kFiles, now, [this](const Person& person) {
          const std::string id = "p" + std::to_string(persons_.size() + 1);
          persons_[person.name] = id;
          return id;
        })) {}

  [[nodiscard]] const book::Book& book() const { return open_->ports().book; }
  [[nodiscard]] Expected expected() const {
    return read_expected(kFiles + "findings.toml", almanac_, persons_);
  }
  [[nodiscard]] std::vector<std::string> found() const { return of_findings(line_of); }
  [[nodiscard]] std::vector<std::string> keys() const { return of_findings(findings::key_of); }
  /// The keys that acknowledgements name.
  [[nodiscard]] std::vector<std::string> acknowledged() const {
    std::vector<std::string> named;
    const auto state = open_->ports().live.view();
    for (const tallies::Record& record : state->records("", "finding-acknowledged")) {
      named.emplace_back(tallies::word(record.fields(), "finding"));
    }
    return named;
  }
  /// Whether a rule found something about a subject at an earlier moment.
  [[nodiscard]] bool stood(const std::string& rule, const std::string& subject,
                           base::Instant at) const {
    const auto state = workshop::refold(open_->ports().book, workshop::real_definitions().catalog,
                                        {UINT64_MAX, at});
    EXPECT_TRUE(state.ok());
    const auto said = judged(*state, at);
    return std::any_of(said.begin(), said.end(), [&](const findings::Finding& one) {
      return one.authority.rule == rule && subject_of(one) == subject;
    });
  }

 private:
  template <class Text>
  [[nodiscard]] std::vector<std::string> of_findings(const Text& text) const {
    std::vector<std::string> lines;
    const auto state = open_->ports().live.view();
    for (const findings::Finding& one : judged(*state, now_)) lines.push_back(text(one));
    std::sort(lines.begin(), lines.end());
    return lines;
  }

  testing::TemporaryFolder folder_;
  StoryClock clock_;
  IdsAsNames names_;
  PersonIds persons_;
  base::Instant now_;
  std::unique_ptr<workshop::OpenBook> open_;
  Almanac almanac_;
};

/// How many entries were recorded so long after they happened, and how many correct another.
struct Afterthoughts {
  int late = 0;
  int corrections = 0;
};
Afterthoughts afterthoughts_in(const book::Book& book) {
  constexpr std::int64_t kMonth = 30 * 86'400'000LL;
  Afterthoughts counted;
  const auto read = book.each(1, [&](const entries::Entry& entry) -> base::Status<> {
    counted.late += entry.recorded_at.ms - entry.content.occurred_at.instant.ms > kMonth ? 1 : 0;
    counted.corrections += entry.content.corrects ? 1 : 0;
    return base::Done{};
  });
  EXPECT_TRUE(read.ok());
  return counted;
}

using Lines = std::vector<std::string>;

/// Both are sorted; a line that stands twice must do so in both.
Lines without(const Lines& all, const Lines& known) {
  Lines left;
  std::set_difference(all.begin(), all.end(), known.begin(), known.end(), std::back_inserter(left));
  return left;
}

constexpr const char* kWednesday = "2026-11-25 19:00";

/// Told once for all tests of it: that takes as long as all they ask.
const Told& told_on_wednesday() {
  static const Told told(moment_of(kWednesday));
  return told;
}

void find_what_the_stories_say(const Told& told) {
  const Expected expected = told.expected();
  const std::vector<std::string> found = told.found();
  EXPECT_EQ(without(found, expected.at_the_end), Lines()) << "found, and not in the list";
  EXPECT_EQ(without(expected.at_the_end, found), Lines()) << "in the list, and not found";
  for (const auto& [story, rule, subject, stood, gone] : expected.passed) {
    EXPECT_TRUE(!stood || told.stood(rule, subject, *stood)) << story;
    EXPECT_FALSE(told.stood(rule, subject, gone)) << story;
  }
}

TEST(DemoFindings, AreWhatItsStoriesSayAndNothingElse) {
  find_what_the_stories_say(told_on_wednesday());
}

class AnyDay : public ::testing::TestWithParam<const char*> {};

TEST_P(AnyDay, FindsWhatItsStoriesSayAndNothingElse) {
  find_what_the_stories_say(Told(moment_of(GetParam())));
}

INSTANTIATE_TEST_SUITE_P(EndsOnAnotherDay, AnyDay,
                         ::testing::Values("2026-10-25 19:00",  // a Sunday: clocks go back
                                           "2027-03-28 19:00",  // a Sunday: clocks go forward
                                           "2027-03-29 00:10",  // the Monday after, in the night
                                           "2027-09-06 08:20",  // a Monday, near a day of the law
                                           "2027-10-30 12:00",  // a Saturday, past a day of the law
                                           "2028-03-01 14:30"));  // after a leap day

TEST(DemoFiles, NameTheSameStories) {
  const Told& told = told_on_wednesday();
  std::set<std::string> stories;
  const base::Toml file = read_toml(kFiles + "stories.toml");
  for (const base::Toml& story : file.members.at("story").items) {
    stories.insert(story.members.at("id").text);
  }
  EXPECT_EQ(told.expected().stories, stories);
}

TEST(DemoFiles, TellOneLateEntryAndOneCorrection) {
  const Told& told = told_on_wednesday();
  const Afterthoughts counted = afterthoughts_in(told.book());
  EXPECT_EQ(counted.late, 1);
  EXPECT_EQ(counted.corrections, 1);
  EXPECT_GT(told.book().head().size, 3'000U);
}

TEST(DemoFiles, AcknowledgeWhatIsFound) {
  const Told& told = told_on_wednesday();
  const std::vector<std::string> acknowledged = told.acknowledged();
  EXPECT_EQ(acknowledged.size(), 1U);
  EXPECT_THAT(told.keys(), ::testing::IsSupersetOf(acknowledged));
}

}  // namespace
}  // namespace benchwarden::demo
