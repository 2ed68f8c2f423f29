#include <algorithm>

#include "rules/cylinder_test.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using base::CivilMonth;
using findings::Finding;
using findings::Judgement;
using findings::Severity;
using findings::Subject;

/// Whether the rule speaks of this cylinder: by its specification, and by its star.
bool speaks_of_starred(const Rule& rule, const entries::Fields& cylinder) {
  if (!speaks_of(rule, cylinder)) return false;
  const std::string_view star = rule.setting("star");
  return star.empty() || star_counts(rule, cylinder) == (star == "with");
}

/// A star that this rule does not count, and an interval longer than it allows.
void note_marks(const Rule& rule, const Scene& scene, const Subject& cylinder, Judgement& said) {
  const entries::Fields& known = scene.attributes(cylinder);
  if (rule.setting("star") == "without" && tallies::word(known, "star_mark") == "yes") {
    Finding finding = finding_of(rule, cylinder, "star-not-counted", Severity::kNote,
                                 holds_since(scene, cylinder, {"star_mark", "specification"}));
    finding.values = {{"measured", shown_word(tallies::word(known, "specification"))},
                      {"limit", shown(*rule.figure("interval"))}};
    said.findings.push_back(std::move(finding));
  }
  const auto own = tallies::measure(known, "test_interval_years", "a");
  const int years = test_interval_years(rule, known);
  if (!own || own->value.thousandths <= years * std::int64_t{1000}) return;
  Finding finding = finding_of(rule, cylinder, "test-interval-not-counted", Severity::kNote,
                               holds_since(scene, cylinder, {"test_interval_years"}));
  finding.values = {{"measured", shown(own->value, "years")},
                    {"limit", {std::to_string(years), "years"}}};
  said.findings.push_back(std::move(finding));
}

void note_unknown(const Rule& rule, const Scene& scene, const Subject& cylinder, Judgement& said) {
  const auto entered = scene.state().under_care().entered_at(cylinder.thing_class, cylinder.id);
  said.findings.push_back(finding_of(rule, cylinder, "test-month-unknown", Severity::kNote,
                                     std::min(entered.value_or(scene.now()), scene.now())));
}

std::string_view says_when_over(calculations::StampState state) {
  return state == calculations::StampState::kEmptyThenTest ? "periodic-test-empty"
                                                           : "periodic-test-refill";
}

/// The test of a cylinder by its stamp, up to the end of the month. A cylinder filled before that
/// may be used until empty; it is not to be refilled.
void judge_periodic_test(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    const entries::Fields& known = scene.attributes(cylinder);
    if (!speaks_of_starred(rule, known)) continue;
    note_marks(rule, scene, cylinder, said);
    const auto due = test_due(rule, known);
    if (!due) {
      note_unknown(rule, scene, cylinder, said);
      continue;
    }
    const auto filling = last_filling(scene, cylinder);
    const auto state = calculations::stamp_state(
        *due, scene.today(), filling ? std::optional(filling->day) : std::nullopt);
    Deadline deadline{cylinder, "periodic-test", base::last_day(*due), {}, {}};
    if (state != calculations::StampState::kCurrent) deadline.says = says_when_over(state);
    if (filling) deadline.entries = {filling->record->seq};
    deadline.values = {{"start", shown_word(tallies::word(known, "last_test_month"))},
                       {"limit", {std::to_string(test_interval_years(rule, known)), "years"}},
                       {"day", shown(deadline.day)}};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

/// A filling after the last day of the test that was due, as the stamp stands.
void judge_refill_after_test(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    const entries::Fields& known = scene.attributes(cylinder);
    const auto due = speaks_of(rule, known) ? test_due(rule, known) : std::nullopt;
    const auto filling = last_filling(scene, cylinder);
    if (!due || !filling || filling->day <= base::last_day(*due)) continue;
    Finding finding =
        finding_of(rule, cylinder, "refill-after-test-over", Severity::kOver, filling->record->at);
    finding.values = {{"measured", shown(filling->day)}, {"day", shown(base::last_day(*due))}};
    finding.entries = {filling->record->seq};
    said.findings.push_back(std::move(finding));
  }
}

/// A cylinder of a specification for which the pack has no interval: nothing is judged, and it says
/// so.
void judge_test_not_told(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    const auto is_meant = [&](const entries::Fields& known) { return speaks_of(rule, known); };
    const entries::Fields& known = scene.attributes(cylinder);
    if (!is_meant(known)) continue;
    Finding finding = finding_of(rule, cylinder, "test-not-told", Severity::kNote,
                                 held_since(scene, cylinder, is_meant));
    finding.values = {{"measured", shown_word(tallies::word(known, "specification"))}};
    said.findings.push_back(std::move(finding));
  }
}

std::string plain_word(std::string_view text) {
  std::string plain;
  for (const char sign : text) {
    const bool joins = sign == ' ' || sign == '_' || sign == '-';
    plain.push_back(joins ? '-'
                          : static_cast<char>(std::tolower(static_cast<unsigned char>(sign))));
  }
  return plain;
}

/// A shoulder of another colour than those that the gas has. Never says what is in a cylinder.
void judge_shoulder_colour(const Rule& rule, const Scene& scene, Judgement& said) {
  const auto accepted = listed_words(rule.setting("colours"));
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    const std::string_view colour = tallies::word(scene.attributes(cylinder), "shoulder_colour");
    if (colour.empty()) continue;
    if (std::find(accepted.begin(), accepted.end(), plain_word(colour)) != accepted.end()) continue;
    Finding finding = finding_of(rule, cylinder, "shoulder-colour", Severity::kNote,
                                 holds_since(scene, cylinder, {"shoulder_colour", "gas"}));
    finding.values = {{"measured", shown_word(colour)},
                      {"limit", shown_word(rule.setting("colours"))}};
    said.findings.push_back(std::move(finding));
  }
}

/// The entry by which a regulator is on a cylinder: a filling takes none off.
const tallies::Record* fitting_of(const Scene& scene, const Subject& cylinder) {
  for (const tallies::Record* change : NewestFirst(scene, cylinder, {"cylinder-change"})) {
    const std::string_view what = change->word("change");
    if (what == "fitted") return change;
    if (what != "refilled") return nullptr;
  }
  return nullptr;
}

/// The regulator that is on a cylinder, rated below the pressure it may be filled to.
void judge_regulator_rating(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    const auto working =
        tallies::measure(scene.attributes(cylinder), "working_pressure_bar", "bar");
    const tallies::Record* fitted = fitting_of(scene, cylinder);
    if (!working || fitted == nullptr) continue;
    const Subject tool{"tool", std::string(fitted->word("tool"))};
    const auto rated = tallies::measure(scene.attributes(tool), "rated_pressure_bar", "bar");
    if (!rated || rated->value >= working->value) continue;
    Finding finding = finding_of(rule, tool, "regulator-rating-over", Severity::kOver, fitted->at);
    finding.values = {{"measured", shown(rated->value, "bar")},
                      {"limit", shown(working->value, "bar")},
                      {"cylinder", shown_word(tallies::word(scene.attributes(cylinder), "name"))}};
    finding.entries = {fitted->seq};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> cylinder_kinds() {
  const FigureSpec interval{"interval", {"years"}};
  const FigureSpec star_interval{"star_interval", {"years"}, false};
  const FigureSpec star_capacity{"star_capacity", {"lb", "kg"}, false};
  const FigureSpec approved{"approved", {"years"}, false};
  const SettingSpec specifications{"specifications", {}, false};
  const SettingSpec match{"match", {"one-of", "none-of"}, false};
  const SettingSpec star_specifications{"star_specifications", {}, false};
  const SettingSpec star_gases{"star_gases", {}, false};
  return {{"periodic-test",
           {interval, star_capacity, approved, {"warn", {"d"}, false}},
           {specifications,
            match,
            {"star", {"with", "without"}, false},
            star_specifications,
            star_gases},
           judge_periodic_test,
           "cylinder"},
          {"refill-after-test",
           {interval, star_interval, star_capacity, approved},
           {specifications, match, star_specifications, star_gases},
           judge_refill_after_test,
           "cylinder"},
          {"test-not-told", {}, {{"specifications", {}}, match}, judge_test_not_told, "cylinder"},
          {"shoulder-colour", {}, {{"colours", {}}}, judge_shoulder_colour, "cylinder"},
          {"regulator-rating", {}, {}, judge_regulator_rating, "cylinder"}};
}

}  // namespace benchwarden::rules
