// Whatever is entered: the state kept in step is the state folded anew, and a question about the
// past is answered as by a fold, written again here, of the entries so limited.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdlib>
#include <map>
#include <set>

#include "base/text.h"
#include "forms/submission.h"
#include "tallies/levels.h"
#include "workshop/due.h"
#include "workshop/finding_views.h"
#include "workshop/form_entries.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

constexpr base::Instant kEnd{INT64_MAX};

/// Rules with clocks and months, and one thing of each class that the usual register lacks.
constexpr std::array<const char*, 10> kMoreThings{
    R"({"thing_class":"workshop","thing":"site","act":"changed","rule_pack":"us-federal"})",
    R"({"thing_class":"gauge","thing":"g1","act":"added","name":"Gauge","range_bar":40,
        "accuracy_class":"en-1-6"})",
    R"({"thing_class":"room","thing":"hall","act":"added","name":"Hall","volume_m3":60})",
    R"({"thing_class":"reference","thing":"f1","act":"added","name":"Reference","range_bar":60})",
    R"({"thing_class":"cabinet","thing":"k1","act":"added","name":"Cabinet","capacity_l":120})",
    R"({"thing_class":"product","thing":"ipa","act":"added","name":"Alcohol","flash_point_c":12})",
    R"({"thing_class":"person","thing":"p2","act":"added","competences":[
        {"competence":"tool-inspection"},{"competence":"gauge-inspection"},
        {"competence":"cylinder-handling"},{"competence":"plant-inspection"}]})",
    R"({"thing_class":"person","thing":"p3","act":"added"})",
    R"({"thing_class":"plant","thing":"x1","act":"added","name":"Receiver",
        "plant_type":"air-receiver"})",
    R"({"thing_class":"closure","thing":"break","act":"added","name":"Break",
        "first_day":"2026-12-24","last_day":"2026-12-31"})"};

/// How many entries a seed makes; more than usual by the environment.
int entries_of_a_seed() {
  const char* wanted = std::getenv("BENCHWARDEN_RANDOM_ENTRIES");
  return wanted == nullptr ? 200 : std::atoi(wanted);
}

/// All entries of a book, folded by the plainest means.
class PlainFold {
 public:
  explicit PlainFold(const TestWorkshop& workshop)
      : catalog_(workshop.ports().definitions.catalog) {
    const auto walked = workshop.ports().book.each(1, [&](const entries::Entry& entry) {
      numbers_.emplace(base::format_uuid(entry.content.id), all_.size());
      all_.push_back(entry);
      return base::Status<>(base::Done{});
    });
    if (!walked) ADD_FAILURE() << walked.error().detail;
  }

  /// One correction after another, as they were recorded.
  [[nodiscard]] tallies::State in_order(const Viewpoint& view) const {
    tallies::State state;
    std::map<std::uint64_t, std::optional<entries::Content>> standing;
    for (const entries::Entry& entry : all_) {
      if (entry.seq > view.known_at) break;
      const entries::Entry& target = target_of(entry);
      if (!seen(target, view)) {
        state.apply(tallies::Posting{entry.seq, {}, {}, true, {}});
      } else if (!entry.content.corrects) {
        standing[entry.seq] = entry.content;
        state.apply(posting(entry, entry.content));
      } else {
        std::optional<entries::Content>& content = standing.at(target.seq);
        tallies::Amendment amendment;
        amendment.seq = entry.seq;
        amendment.recorded_at = entry.recorded_at;
        amendment.person_verified = entry.signature.person_verified;
        amendment.sent_by = sent_by(entry);
        amendment.target_seq = target.seq;
        amendment.target_occurred_at = target.content.occurred_at.instant;
        amendment.struck = forms::strikes_out(entry.content);
        if (content) amendment.before = forms::effects_of(catalog_, *content);
        content = corrected(content, entry);
        if (content) amendment.after = forms::effects_of(catalog_, *content);
        state.apply(amendment);
      }
    }
    return state;
  }

  /// As if every entry of the benches had been right at once.
  [[nodiscard]] tallies::State never_wrong() const {
    std::map<std::uint64_t, std::optional<entries::Content>> standing;
    for (const entries::Entry& entry : all_) {
      const entries::Entry& target = target_of(entry);
      std::optional<entries::Content>& content = standing[target.seq];
      content = entry.content.corrects ? corrected(content, entry) : entry.content;
    }
    tallies::State state;
    for (const entries::Entry& entry : all_) {
      const auto found = standing.find(entry.seq);
      const bool stands = found != standing.end() && found->second;
      state.apply(stands ? posting(entry, *found->second)
                         : tallies::Posting{entry.seq, {}, {}, true, {}});
    }
    return state;
  }

 private:
  [[nodiscard]] const entries::Entry& target_of(const entries::Entry& entry) const {
    if (!entry.content.corrects) return entry;
    return all_.at(numbers_.at(base::format_uuid(*entry.content.corrects)));
  }
  /// The register acts in the order of the book, all else when it happened.
  static bool seen(const entries::Entry& entry, const Viewpoint& view) {
    return entry.content.kind == "register-change" ||
           entry.content.occurred_at.instant <= view.as_of;
  }
  [[nodiscard]] std::optional<entries::Content> corrected(
      const std::optional<entries::Content>& content, const entries::Entry& correction) const {
    if (!content || forms::strikes_out(correction.content)) return std::nullopt;
    return forms::merged(catalog_, *content, correction.content);
  }
  static tallies::SentBy sent_by(const entries::Entry& entry) {
    return {entry.signature.device.value_or(""), entry.content.device_seq};
  }

  [[nodiscard]] tallies::Posting posting(const entries::Entry& entry,
                                         const entries::Content& content) const {
    return {entry.seq,
            entry.content.occurred_at.instant,
            entry.recorded_at,
            entry.signature.person_verified,
            forms::effects_of(catalog_, content),
            sent_by(entry)};
  }

  const forms::Catalog& catalog_;
  std::vector<entries::Entry> all_;
  std::map<std::string, std::size_t> numbers_;
};

using Lines = std::vector<std::string>;

Lines findings_shown(const TestWorkshop& workshop, const std::optional<Viewpoint>& view) {
  const auto shown = show_findings(workshop.ports(), view);
  if (!shown) return {shown.error().detail};
  Lines lines;
  for (const base::Json& one : *shown->find("findings")->array()) {
    lines.push_back(*one.find("key")->string() + ": " + *one.find("sentence")->string() +
                    base::write_json(*one.find("entries")));
  }
  return lines;
}

Lines findings_of(const TestWorkshop& workshop, const tallies::State& state, base::Instant as_of) {
  const Definitions& definitions = workshop.ports().definitions;
  const auto said = judge(workshop.ports(), state, std::min(as_of, workshop.clock.now()));
  if (!said) return {said.error().detail};
  Lines lines;
  for (const findings::Finding& one : said->findings) {
    lines.push_back(findings::key_of(one) + ": " +
                    sentence_of(definitions, state, one.subject, one.says, one.values,
                                &workshop.ports().names) +
                    base::write_json(base::JsonArray(one.entries.begin(), one.entries.end())));
  }
  return lines;
}

Lines due_of(const TestWorkshop& workshop, const tallies::State& state) {
  const auto said = judge(workshop.ports(), state, workshop.clock.now());
  if (!said) return {said.error().detail};
  Lines lines;
  for (const findings::DueItem& one : said->due) {
    lines.push_back(base::format_date(one.day) + " " + one.authority.rule + " " + one.subject.id);
  }
  return lines;
}

std::string json_of(const base::Result<base::Json>& shown) {
  return shown ? base::write_json(*shown) : shown.error().detail;
}

class BookOfAllKinds : public ::testing::TestWithParam<std::uint64_t> {
 protected:
  BookOfAllKinds() : people_(workshop_, GetParam()) {
    std::cout << "seed " << GetParam() << ", " << entries_of_a_seed() << " entries\n";
    for (const char* more : kMoreThings) workshop_.enter(tell("register-change", more));
  }

  void expect_kept_in_step(const PlainFold& plain) {
    const auto live = workshop_.ports().live.view();
    const tallies::State state = plain.in_order({});
    EXPECT_TRUE(live->snapshot() == state.snapshot());
    EXPECT_EQ(due_of(workshop_, *live), due_of(workshop_, state));
    const Viewpoint now{workshop_.size()};
    EXPECT_EQ(json_of(show_levels(workshop_.ports(), std::nullopt)),
              json_of(show_levels(workshop_.ports(), now)));
    EXPECT_EQ(json_of(show_findings(workshop_.ports(), std::nullopt)),
              json_of(show_findings(workshop_.ports(), now)));
  }

  void expect_seen_alike(const PlainFold& plain, const Viewpoint& view) {
    SCOPED_TRACE("as of " + base::format_rfc3339_utc(view.as_of) + ", known at " +
                 std::to_string(view.known_at));
    const tallies::State state = plain.in_order(view);
    const auto folded = refold(workshop_.ports().book, workshop_.ports().definitions.catalog, view);
    ASSERT_TRUE(folded.ok());
    EXPECT_TRUE(folded->snapshot() == state.snapshot());
    EXPECT_EQ(findings_shown(workshop_, view), findings_of(workshop_, state, view.as_of));
  }

  /// A kind of which no entry was accepted yet; "" when there is none.
  std::string missing_kind() const {
    for (const forms::Definition& form : workshop_.ports().definitions.catalog.definitions()) {
      if (!people_.accepted().contains(form.kind)) return form.kind;
    }
    return "";
  }

  TestWorkshop workshop_;
  FormEntries people_;
};

TEST_P(BookOfAllKinds, IsWhatItsEntriesFoldTo) {
  constexpr int kLooks = 5;
  for (int look = 0; look < kLooks; ++look) {
    people_.send(entries_of_a_seed() / kLooks);
    const PlainFold plain(workshop_);
    expect_kept_in_step(plain);
    expect_seen_alike(plain, {people_.pick(workshop_.size() + 1)});
    expect_seen_alike(plain, {UINT64_MAX, people_.moment()});
    expect_seen_alike(plain, {people_.pick(workshop_.size() + 1), people_.moment()});
  }
  const std::string before = workshop_.ports().live.view()->snapshot();
  workshop_.open();
  EXPECT_TRUE(before == workshop_.ports().live.view()->snapshot()) << "after a restart";
  // A rare kind may take longer to come.
  for (int more = 0; more < 4 * kLooks && !missing_kind().empty(); ++more) {
    people_.send(entries_of_a_seed() / kLooks);
  }
  EXPECT_EQ(missing_kind(), "");
  EXPECT_GT(people_.accepted().at("correction"), entries_of_a_seed() / 20);
  EXPECT_GT(people_.accepted().at("struck-out"), entries_of_a_seed() / 60);
  EXPECT_GT(people_.late(), entries_of_a_seed() / 10);
  EXPECT_FALSE(findings_shown(workshop_, std::nullopt).empty());
}

/// The register stands still here: an amount is counted by the density that was entered when it was
/// told or corrected, and that is not the same moment in a book without mistakes.
TEST_P(BookOfAllKinds, SaysAfterCorrectionsWhatItWouldHaveSaidWithoutMistakes) {
  people_.leave_out("register-change");
  people_.send(entries_of_a_seed() / 2);
  const tallies::State state = PlainFold(workshop_).never_wrong();
  const auto live = workshop_.ports().live.view();
  const auto levels = tallies::levels(*live, kEnd);
  const auto wanted = tallies::levels(state, kEnd);
  ASSERT_EQ(levels.size(), wanted.size());
  for (std::size_t i = 0; i < levels.size(); ++i) {
    EXPECT_EQ(levels[i].amount, wanted[i].amount) << levels[i].container;
    EXPECT_EQ(levels[i].oldest_content, wanted[i].oldest_content) << levels[i].container;
  }
  const Lines found = findings_of(workshop_, *live, kEnd);
  EXPECT_EQ(base::join(found, "\n"), base::join(findings_of(workshop_, state, kEnd), "\n"));
  std::set<std::string> rules;
  for (const std::string& line : found) rules.insert(line.substr(0, line.find(' ')));
  EXPECT_GT(rules.size(), 15U) << "the entries hardly tell the rules anything";
}

INSTANTIATE_TEST_SUITE_P(Seeds, BookOfAllKinds, ::testing::Values(1U, 2U, 3U));

}  // namespace
}  // namespace benchwarden::workshop
