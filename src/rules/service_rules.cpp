#include <algorithm>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;
using tallies::Record;

/// Whether an entry tells of this thing being used: it names it in the rule's field, or it is
/// about the thing itself where the rule names none; and it is no other act of its kind.
bool is_use(const Rule& rule, const Subject& thing, const Record& record) {
  const std::string_view field = rule.setting("field");
  if (!field.empty() && record.word(field) != thing.id) return false;
  const auto acts = listed_words(rule.setting("only_codes"));
  const std::string_view act = record.word(rule.setting("only_field"));
  return acts.empty() || act.empty() || std::find(acts.begin(), acts.end(), act) != acts.end();
}

/// A look that passed the thing, later than the use and entered after it: somebody has seen to it.
bool seen_to(const Scene& scene, const tallies::RecordList& looks, const Record& use) {
  return std::any_of(looks.deciding().rbegin(), looks.deciding().rend(), [&](std::uint32_t place) {
    const Record& look = looks[place];
    return !look.struck && look.outcome == entries::Outcome::kPassed && look.at > use.at &&
           look.at <= scene.now() && look.seq > use.seq;
  });
}

bool was_ever_withdrawn(const tallies::RecordList& looks) {
  return std::any_of(looks.deciding().begin(), looks.deciding().end(), [&](std::uint32_t place) {
    return !looks[place].struck && looks[place].outcome != entries::Outcome::kPassed;
  });
}

/// The uses that count, in order of time.
ToldOf uses(const Rule& rule, const Scene& scene, const Subject& thing) {
  const auto& looks = scene.state().records(thing.thing_class, thing.id);
  const auto kinds = listed_words(rule.setting("kind"));
  ToldOf found;
  if (!was_ever_withdrawn(looks)) return found;
  const auto add = [&](const Subject& told_at) {
    for (const Record* record : NewestFirst(scene, told_at, kinds)) {
      if (tallies::in_service_before(looks, record->at)) continue;
      if (is_use(rule, thing, *record) && !seen_to(scene, looks, *record)) {
        found.push_back(record);
      }
    }
  };
  if (rule.setting("field").empty()) {
    add(thing);
  } else {
    const std::string filed_under(rule.setting("told_of"));
    for (const auto& [id, records] : scene.state().records().of_class(filed_under)) {
      add({filed_under, id});
    }
  }
  std::sort(found.begin(), found.end(), [](const Record* a, const Record* b) {
    return a->at != b->at ? a->at < b->at : a->seq < b->seq;
  });
  return found;
}

/// Something was used while it was withdrawn. Until a look passes it that was entered afterwards.
void judge_withdrawn_in_use(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& thing : subjects_of(rule, scene)) {
    const ToldOf found = uses(rule, scene, thing);
    if (found.empty()) continue;
    auto finding = finding_of(rule, thing, "withdrawn-in-use-over", findings::Severity::kOver,
                              found.front()->at);
    finding.values = {{"day", shown(scene.day_of(found.front()->at))},
                      {"measured", shown_word(std::to_string(found.size()))}};
    finding.entries = ends_of(*found.front(), *found.back());
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> service_kinds() {
  return {{"withdrawn-in-use",
           {},
           {{"about", {}, true, Word::kThing},
            {"kind", {}, true, Word::kKinds},
            {"told_of", {}, false, Word::kSubject},
            {"field", {}, false, Word::kField},
            {"only_field", {}, false, Word::kField},
            {"only_codes", {}, false, Word::kCodes, "only_field"}},
           judge_withdrawn_in_use}};
}

}  // namespace benchwarden::rules
