#include <algorithm>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using findings::Judgement;
using findings::Subject;

/// A last day and the span that led to it.
struct Interval {
  findings::Shown span;
  CivilDate last_day;
};

/// By the thing's own interval, in days, where the rule names an attribute for it.
std::optional<Interval> by_register(const Rule& rule, const Scene& scene, const Subject& thing,
                                    CivilDate day) {
  const auto own = tallies::measure(scene.attributes(thing), rule.setting("attribute"), "d");
  if (!own || own->value.thousandths <= 0) return std::nullopt;
  const auto days = static_cast<int>(own->value.thousandths / 1000);
  const auto last = rule.working_days ? calculations::add_open_days(scene.opening(), day, days)
                                      : calculations::days_after(day, days);
  return Interval{shown(own->value, "d"), last.value_or(base::kLastDay)};
}

/// The shorter of the thing's own interval and the rule's; none without either.
std::optional<Interval> interval_after(const Rule& rule, const Scene& scene, const Subject& thing,
                                       CivilDate day) {
  const auto own = by_register(rule, scene, thing, day);
  const RuleFigure* interval = rule.figure("interval");
  if (interval == nullptr) return own;
  const Interval by_rule{shown(*interval), scene.later(rule, "interval", day)};
  return own && own->last_day < by_rule.last_day ? own : by_rule;
}

/// Something is looked at at intervals. What never was counts from the day it was entered. A
/// withdrawn thing is left out: it comes back by being looked at.
void judge_periodic_inspection(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& thing : subjects_of(rule, scene)) {
    const auto kinds = listed_words(rule.setting("kind"));
    const tallies::Record* look = NewestFirst(scene, thing, kinds).next();
    const bool never = look == nullptr;
    const auto entered = scene.state().under_care().entered_at(thing.thing_class, thing.id);
    if (never && !entered) continue;
    const auto& records = scene.state().records(thing.thing_class, thing.id);
    if (!tallies::in_service_before(records, just_after(scene.now()))) continue;
    const CivilDate start = scene.day_of(never ? *entered : look->at);
    const auto interval = interval_after(rule, scene, thing, start);
    if (!interval) continue;
    Deadline deadline{
        thing, never ? "first-inspection" : "periodic-inspection", interval->last_day, {}, {}};
    if (!never) deadline.entries = {look->seq};
    deadline.values = {{"measured", shown_days(base::days_between(start, scene.today()))},
                       {"limit", interval->span},
                       {"start", shown(start)},
                       {"day", shown(interval->last_day)}};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

/// The last day of the month that lies `age` after the month something was made in.
std::optional<CivilDate> last_of_age(const Rule& rule, const Scene& scene,
                                     const entries::Fields& thing) {
  const auto made = base::parse_month(tallies::word(thing, rule.setting("made")));
  if (!made || rule.figure("age") == nullptr) return std::nullopt;
  const CivilDate day = scene.later(rule, "age", base::first_day(*made));
  return base::last_day(base::month_of(day));
}

/// Something is replaced by a day: the maker's where it was entered, else at an age.
void judge_replace_by(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& thing : subjects_of(rule, scene)) {
    const entries::Fields& known = scene.attributes(thing);
    const auto* by_maker = entries::find_field_as<CivilDate>(known, rule.setting("replace"));
    const auto by_age = last_of_age(rule, scene, known);
    if (by_maker == nullptr && !by_age) continue;
    const CivilDate day = by_maker != nullptr ? *by_maker : *by_age;
    Deadline deadline{
        thing, by_maker != nullptr ? "replace-by-maker" : "replace-by-age", day, {}, {}};
    deadline.values = {{"day", shown(day)}};
    if (by_maker == nullptr) {
      deadline.values.emplace_back("start", shown_word(tallies::word(known, rule.setting("made"))));
      deadline.values.emplace_back("limit", shown(*rule.figure("age")));
    }
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

}  // namespace

std::vector<RuleKind> interval_kinds() {
  const FigureSpec warn{"warn", {"d"}, false};
  return {{"periodic-inspection",
           {{"interval", {"d", "months", "years"}, false}, warn},
           {{"about", {}, true, Word::kThing},
            {"kind", {}, true, Word::kKinds},
            {"attribute", {}, false, Word::kAttribute}},
           judge_periodic_inspection},
          {"replace-by",
           {{"age", {"months", "years"}, false}, warn},
           {{"about", {}, true, Word::kThing},
            {"made", {}, false, Word::kAttribute},
            {"replace", {}, true, Word::kAttribute}},
           judge_replace_by}};
}

}  // namespace benchwarden::rules
