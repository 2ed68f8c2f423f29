#include <map>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using findings::Judgement;
using findings::Subject;

/// What is valid until a day: which one of several, and the entry that says so.
struct Validity {
  CivilDate until;
  std::vector<std::uint64_t> entries;
};
/// By the word that tells one from another; "" where there is one only.
using Validities = std::map<std::string, Validity>;

/// A list of the register: competences, each row with its day.
void add_rows(const entries::List& list, const Rule& rule, Validities& found) {
  for (const entries::Record& row : list.rows) {
    const auto* until = entries::find_scalar_as<CivilDate>(row, rule.setting("field"));
    const auto* which = entries::find_scalar_as<entries::Code>(row, rule.setting("per"));
    if (until == nullptr) continue;
    const auto [one, first] =
        found.try_emplace(which == nullptr ? "" : which->slug, Validity{*until, {}});
    if (!first) one->second.until = std::max(one->second.until, *until);
  }
}

/// The last entry of each word: briefings, each with its topic.
void add_told(const ToldOf& newest_first, const Rule& rule, Validities& found) {
  for (const tallies::Record* record : newest_first) {
    const auto until = record->date(rule.setting("field"));
    const std::string which(record->word(rule.setting("per")));
    if (until) found.try_emplace(which, Validity{*until, {record->seq}});
  }
}

Validities validities(const Rule& rule, const Scene& scene, const Subject& thing) {
  Validities found;
  const entries::Fields& known = scene.attributes(thing);
  if (!rule.setting("kind").empty()) {
    add_told(told_of(scene, thing, listed_words(rule.setting("kind"))), rule, found);
  } else if (!rule.setting("list").empty()) {
    const auto* list = entries::find_field_as<entries::List>(known, rule.setting("list"));
    if (list != nullptr) add_rows(*list, rule, found);
  } else if (const auto* until = entries::find_field_as<CivilDate>(known, rule.setting("field"))) {
    found[""] = {*until, {}};
  }
  return found;
}

/// Something is valid until a day and no longer: an attribute of a thing, the rows of a list in
/// the register, or what the last entry of a kind said for each word of its field `per`.
void judge_expiry(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& thing : subjects_of(rule, scene)) {
    for (const auto& [which, validity] : validities(rule, scene, thing)) {
      Deadline deadline{
          thing, which.empty() ? "expiry" : "expiry-of", validity.until, {}, validity.entries};
      deadline.values = {{"item", shown_word(rule.setting("item"))},
                         {"day", shown(validity.until)}};
      if (!which.empty()) {
        deadline.values.emplace_back("which", shown_code(which, rule.setting("per")));
      }
      judge_deadline(rule, scene, std::move(deadline), said);
    }
  }
}

}  // namespace

std::vector<RuleKind> expiry_kinds() {
  return {{"expiry",
           {{"warn", {"d"}, false}},
           {{"about", {}, true, Word::kThing},
            {"field", {}, true, Word::kField},
            {"item", {}},
            {"list", {}, false, Word::kAttribute},
            {"kind", {}, false, Word::kKinds},
            {"per", {}, false, Word::kField}},
           judge_expiry}};
}

}  // namespace benchwarden::rules
