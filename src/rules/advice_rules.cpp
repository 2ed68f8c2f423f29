#include <algorithm>
#include <string>
#include <utility>

#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

/// Shown with what it is about: nothing is held against it. `above` narrows it to containers that
/// hold more.
void judge_advice(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  const RuleFigure* above = rule.figure("above");
  for (findings::Subject& subject : subjects_of(rule, scene)) {
    if (above != nullptr) {
      const auto capacity = tallies::measure(scene.attributes(subject), "capacity_l", "l");
      if (!capacity || compare(quantities::microlitres(*capacity).count(), *above) <= 0) continue;
    }
    said.advice.push_back({rule.authority, std::move(subject)});
  }
}

/// An attribute that other rules go by and that was never entered: they cannot judge without it.
void judge_register_gap(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const findings::Subject& subject : scene.subjects(rule, rule.setting("about"))) {
    const std::string_view field = rule.setting("field");
    if (entries::find_field(scene.attributes(subject), field) != nullptr) continue;
    auto finding = finding_of(rule, subject, "register-gap-over", findings::Severity::kNote);
    const tallies::Register& under_care = scene.state().under_care();
    finding.since =
        under_care.entered_at(subject.thing_class, subject.id).value_or(base::Instant{});
    finding.values = {{"item", shown_word(rule.setting("item"))}};
    said.findings.push_back(std::move(finding));
  }
}

/// Whether somebody recorded, from `from` on, that what this rule asks for was done: an action
/// closed under the key of its finding, which begins with the id of the rule.
bool is_done(const Rule& rule, const Scene& scene, base::CivilDate from) {
  const std::string key = rule.authority.rule + " ";
  for (const tallies::Record* record : NewestFirst(scene, {}, {"action-closed"})) {
    if (scene.day_of(record->at) < from) return false;
    if (record->word("finding").starts_with(key) && record->word("effective") != "no") return true;
  }
  return false;
}

void say_date(const Rule& rule, const Scene& scene, base::CivilDate day,
              findings::Judgement& said) {
  // The year tells one day of a rule that comes again from the next.
  judge_deadline(rule, scene,
                 {{},
                  "calendar-date",
                  day,
                  {{"item", shown_word(rule.setting("item"))},
                   {"day", shown(day)},
                   {"which", shown_word(std::to_string(day.year))}},
                  {}},
                 said);
}

/// A day of the calendar by which something is to be done, once or every so many years. One that
/// has passed stays for the span `after`, since a book does not know what was done before it.
void judge_calendar_date(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  if (!scene.applies(rule, {})) return;
  const auto first = base::parse_date(rule.setting("first"));
  if (!first) return;
  base::CivilDate day = *first;
  for (int turn = 0; day < base::CivilDate{9999, 1, 1} && turn < 1000; ++turn) {
    const bool passed = scene.today() > day;
    const bool told = !passed || scene.today() <= scene.later(rule, "after", day);
    const bool done = is_done(rule, scene, base::add_days(day, -warn_days(rule)));
    if (told && !done) say_date(rule, scene, day, said);
    if ((!passed && !done) || rule.figure("every") == nullptr) return;
    day = scene.later(rule, "every", day);
  }
}

}  // namespace

std::vector<RuleKind> advice_kinds() {
  return {{"advice",
           {{"above", volume_units(), false}},
           {{"about", {}, true, Word::kThing}},
           judge_advice},
          {"calendar-date",
           {{"every", {"months", "years"}, false}, {"warn", {"d"}, false}, {"after", {"d"}}},
           {{"first", {}, true, Word::kDate}, {"item", {}}},
           judge_calendar_date},
          {"register-gap",
           {},
           {{"about", {}, true, Word::kThing}, {"field", {}, true, Word::kAttribute}, {"item", {}}},
           judge_register_gap}};
}

}  // namespace benchwarden::rules
