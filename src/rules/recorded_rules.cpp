#include <algorithm>
#include <optional>
#include <string>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

/// From the first of the entries that tell the same to the last.
struct Run {
  const tallies::Record* first = nullptr;
  const tallies::Record* last = nullptr;
  std::string word;  ///< as the last one has it
};

/// The entries that told one of the codes, back to the last that told another word. One that says
/// nothing of the field changes nothing.
std::optional<Run> run_of(const ToldOf& newest_first, std::string_view field,
                          const std::vector<std::string>& codes) {
  Run run;
  for (const tallies::Record* record : newest_first) {
    const entries::Fields fields = record->fields();
    const std::string word(tallies::word(fields, field));
    if (word.empty()) continue;
    if (std::find(codes.begin(), codes.end(), word) == codes.end()) break;
    if (run.last == nullptr) run = {record, record, word};
    run.first = record;
  }
  return run.last == nullptr ? std::nullopt : std::optional(run);
}

std::vector<std::uint64_t> ends_of(const Run& run) {
  if (run.first == run.last) return {run.last->seq};
  return {std::min(run.first->seq, run.last->seq), std::max(run.first->seq, run.last->seq)};
}

/// An item of a look that was recorded as one of the codes: until an entry of the kinds says
/// another word. Since the first of the entries in a row that said so.
void judge_recorded_item(const Rule& rule, const Scene& scene, Judgement& said) {
  const auto kinds = listed_words(rule.setting("kind"));
  const auto codes = listed_words(rule.setting("codes"));
  for (const Subject& subject : subjects_of(rule, scene)) {
    const auto run = run_of(told_of(scene, subject, kinds), rule.setting("field"), codes);
    if (!run) continue;
    findings::Finding finding;
    finding.authority = rule.authority;
    finding.subject = subject;
    finding.says = "recorded-item-over";
    finding.severity = findings::Severity::kOver;
    finding.since = run->first->at;
    finding.values = {{"item", shown_word(rule.setting("item"))},
                      {"measured", shown_word(run->word)},
                      {"day", shown(scene.day_of(run->first->at))}};
    finding.entries = ends_of(*run);
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> recorded_kinds() {
  return {{"recorded-item",
           {},
           {{"about", {}}, {"kind", {}}, {"field", {}}, {"codes", {}}, {"item", {}}},
           judge_recorded_item}};
}

}  // namespace benchwarden::rules
