#include <algorithm>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

/// Everything of a class that entries told of, in the register or not: events and stuck parts come
/// into being by the first entry about them.
std::vector<Subject> told_things(const Rule& rule, const Scene& scene) {
  std::vector<Subject> found;
  const std::string thing_class(rule.setting("about"));
  for (const auto& [id, records] : scene.state().records().of_class(thing_class)) {
    Subject subject{thing_class, id};
    if (scene.applies(rule, subject)) found.push_back(std::move(subject));
  }
  return found;
}

/// Work that was opened and, by its last entry, not closed by the end of the day, or `grace` later.
void judge_left_open(const Rule& rule, const Scene& scene, Judgement& said) {
  const auto codes = listed_words(rule.setting("codes"));
  for (const Subject& subject : told_things(rule, scene)) {
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

/// Whether an entry said that something was done about it, later than the entry that asked for it.
bool is_closed(const Rule& rule, const Scene& scene, const Subject& subject,
               const tallies::Record& asked) {
  const ToldOf closings = told_of(scene, subject, {std::string(rule.setting("closed_by"))});
  return std::any_of(closings.begin(), closings.end(), [&](const auto* closing) {
    return closing->at >= asked.at && tallies::word(closing->fields(), "effective") != "no";
  });
}

/// What is to be followed up by a day that its last entry names.
void judge_follow_up(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& subject : told_things(rule, scene)) {
    const auto* asked = scene.last(subject, rule.setting("kind"));
    if (asked == nullptr || is_closed(rule, scene, subject, *asked)) continue;
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
           {{"about", {}}, {"kind", {}}, {"field", {}}, {"codes", {}}, {"item", {}}},
           judge_left_open},
          {"follow-up",
           {{"warn", {"d"}, false}},
           {{"about", {}}, {"kind", {}}, {"field", {}}, {"closed_by", {}}},
           judge_follow_up}};
}

}  // namespace benchwarden::rules
