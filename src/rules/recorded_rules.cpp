#include <algorithm>
#include <optional>
#include <string>

#include "base/text.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

/// From the first of the entries that tell the same to the last.
struct ToldRun {
  const tallies::Record* first = nullptr;
  const tallies::Record* last = nullptr;
  std::string word;  ///< as the last one has it
};

/// The entries that told one of the codes, back to the last that told another word. One that says
/// nothing of the field changes nothing.
std::optional<ToldRun> run_of(NewestFirst told, std::string_view field,
                              const std::vector<std::string>& codes) {
  ToldRun run;
  for (const tallies::Record* record : told) {
    const std::string_view word = record->word(field);
    if (word.empty()) continue;
    if (std::find(codes.begin(), codes.end(), word) == codes.end()) break;
    if (run.last == nullptr) run = {record, record, std::string(word)};
    run.first = record;
  }
  return run.last == nullptr ? std::nullopt : std::optional(run);
}

/// A month of the register, as a test stamp, answers entries of earlier months, and those of the
/// same one that it was entered after.
struct Stamp {
  base::Instant begins = base::kEarliest;
  base::Instant ends = base::kEarliest;
  std::uint64_t entered = 0;
};

Stamp stamp_of(const Scene& scene, const Subject& subject, std::string_view attribute) {
  const auto month = base::parse_month(tallies::word(scene.attributes(subject), attribute));
  const tallies::Thing* thing = scene.state().thing(subject.thing_class, subject.id);
  if (!month || thing == nullptr) return {};
  return {scene.zone().start_of(*month), scene.after(base::last_day(*month)), thing->changed_seq};
}

/// The entries that told one of the codes and that no later month of the register answers.
std::optional<ToldRun> unanswered(const Rule& rule, const Scene& scene, const Subject& subject,
                                  NewestFirst told) {
  const auto codes = listed_words(rule.setting("codes"));
  const Stamp stamp = stamp_of(scene, subject, rule.setting("until_month"));
  ToldRun run;
  for (const tallies::Record* record : told) {
    if (record->at < stamp.begins) break;
    if (record->at < stamp.ends && stamp.entered > record->seq) continue;
    const std::string_view word = record->word(rule.setting("field"));
    if (std::find(codes.begin(), codes.end(), word) == codes.end()) continue;
    if (run.last == nullptr) run = {record, record, std::string(word)};
    run.first = record;
  }
  return run.last == nullptr ? std::nullopt : std::optional(run);
}

std::optional<ToldRun> found_run(const Rule& rule, const Scene& scene, const Subject& subject) {
  NewestFirst told(scene, subject, listed_words(rule.setting("kind")));
  if (!rule.setting("until_month").empty())
    return unanswered(rule, scene, subject, std::move(told));
  return run_of(std::move(told), rule.setting("field"), listed_words(rule.setting("codes")));
}

/// An item of a look that was recorded as one of the codes: until an entry of the kinds says
/// another word, or until a month of the register is later. Since the first of the entries in a
/// row that said so.
void judge_recorded_item(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& subject : subjects_of(rule, scene)) {
    const auto run = found_run(rule, scene, subject);
    if (!run || !takes_content(rule, scene, subject)) continue;
    auto finding = finding_of(rule, subject, "recorded-item-over", weight(rule), run->first->at);
    finding.values = {{"item", shown_word(rule.setting("item"))},
                      {"measured", shown_code(run->word, rule.setting("field"))},
                      {"day", shown(scene.day_of(run->first->at))}};
    finding.entries = ends_of(*run->first, *run->last);
    said.findings.push_back(std::move(finding));
  }
}

/// "body condition, seals condition": the items that an entry has as failed.
std::string failed_items(const Rule& rule, const entries::Fields& fields) {
  std::vector<std::string> items;
  for (const entries::Field& field : fields) {
    const auto* code = std::get_if<entries::Code>(&field.value);
    if (code == nullptr || code->slug != rule.setting("failed")) continue;
    items.push_back(field.name);
    std::replace(items.back().begin(), items.back().end(), '_', ' ');
  }
  return base::join(items, ", ");
}

/// A thing whose last check left it in service with an item that failed, since the first of the
/// checks in a row that did.
void judge_kept_in_service(const Rule& rule, const Scene& scene, Judgement& said) {
  const auto codes = listed_words(rule.setting("codes"));
  for (const Subject& subject : subjects_of(rule, scene)) {
    ToldRun run;
    for (const auto* record : NewestFirst(scene, subject, listed_words(rule.setting("kind")))) {
      const entries::Fields fields = record->fields();
      const auto outcome = tallies::word(fields, rule.setting("field"));
      if (outcome.empty()) continue;
      const std::string items = failed_items(rule, fields);
      if (items.empty() || std::find(codes.begin(), codes.end(), outcome) == codes.end()) break;
      if (run.last == nullptr) run = {record, record, items};
      run.first = record;
    }
    if (run.last == nullptr) continue;
    auto finding =
        finding_of(rule, subject, "kept-in-service", findings::Severity::kNote, run.first->at);
    finding.values = {{"measured", shown_word(run.word)},
                      {"day", shown(scene.day_of(run.last->at))}};
    finding.entries = ends_of(*run.first, *run.last);
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> recorded_kinds() {
  return {{"kept-in-service",
           {},
           {{"about", {}}, {"kind", {}}, {"field", {}}, {"codes", {}}, {"failed", {}}},
           judge_kept_in_service},
          {"recorded-item",
           {halogens()},
           {{"about", {}, true, Word::kThing},
            {"kind", {}, true, Word::kKinds},
            {"field", {}, true, Word::kField},
            {"codes", {}, true, Word::kCodes, "field"},
            {"item", {}},
            {"until_month", {}, false, Word::kAttribute},
            {"weighs", {"note", "due", "over"}, false}},
           judge_recorded_item}};
}

}  // namespace benchwarden::rules
