#include <algorithm>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

/// Work that was opened and, by its last entry, not closed by the end of the day, or `grace` later.
void judge_left_open(const Rule& rule, const Scene& scene, Judgement& said) {
  const auto codes = listed_words(rule.setting("codes"));
  for (const Subject& subject : told_things(rule, scene, rule.setting("about"))) {
    const auto* last = scene.last(subject, rule.setting("kind"));
    if (last == nullptr) continue;
    const std::string stage(tallies::word(last->fields(), rule.setting("field")));
    if (std::find(codes.begin(), codes.end(), stage) == codes.end()) continue;
    const base::CivilDate opened = scene.day_of(last->at);
    Deadline deadline{subject, "left-open", scene.later(rule, "grace", opened), {}, {last->seq}};
    deadline.values = {{"item", shown_word(rule.setting("item"))}, {"start", shown(opened)}};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

/// What is to be followed up by a day that its last entry names.
void judge_follow_up(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& subject : told_things(rule, scene, rule.setting("about"))) {
    const auto* asked = scene.last(subject, rule.setting("kind"));
    if (asked == nullptr || is_closed(scene, subject, *asked, rule.setting("closed_by"))) continue;
    const entries::Fields fields = asked->fields();
    const auto* day = entries::find_field_as<base::CivilDate>(fields, rule.setting("field"));
    if (day == nullptr) continue;
    Deadline deadline{subject, "follow-up", *day, {}, {asked->seq}};
    deadline.values = {{"start", shown(scene.day_of(asked->at))}, {"day", shown(*day)}};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

}  // namespace

std::vector<RuleKind> open_kinds() {
  return {{"left-open",
           {{"grace", {"d"}, false}},
           {{"about", {}, true, Word::kSubject},
            {"kind", {}, true, Word::kKind},
            {"field", {}, true, Word::kField},
            {"codes", {}, true, Word::kCodes, "field"},
            {"item", {}}},
           judge_left_open},
          {"follow-up",
           {{"warn", {"d"}, false}},
           {{"about", {}, true, Word::kSubject},
            {"kind", {}, true, Word::kKind},
            {"field", {}, true, Word::kField},
            {"closed_by", {}, true, Word::kKind}},
           judge_follow_up}};
}

}  // namespace benchwarden::rules
