#include <algorithm>
#include <optional>

#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

/// The newest backup that had been made by now.
const tallies::Record* newest_backup(const Scene& scene) {
  const auto& records = scene.state().records("", "backup-made");
  const auto newest = std::find_if(
      records.rbegin(), records.rend(),
      [&](const tallies::Record& record) { return !record.struck && record.at <= scene.now(); });
  return newest == records.rend() ? nullptr : &*newest;
}

/// The newest backup is more than `limit` days old; or there is none, and the workshop was entered
/// longer ago.
void judge_backup_age(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  const tallies::Record* newest = newest_backup(scene);
  const auto entered = scene.state().under_care().entered_at("workshop", "site");
  if (newest == nullptr && !entered) return;
  const base::CivilDate start = scene.day_of(newest == nullptr ? *entered : newest->at);
  const base::CivilDate last = scene.later(rule, "limit", start);
  if (scene.today() <= last) return;
  auto finding = finding_of(rule, {}, newest == nullptr ? "backup-none" : "backup-age",
                            findings::Severity::kDue);
  finding.since = scene.after(last);
  finding.values = {{"measured", shown_days(base::days_between(start, scene.today()))},
                    {"limit", shown(*rule.figure("limit"))},
                    {"start", shown(start)}};
  if (newest != nullptr) finding.entries = {newest->seq};
  said.findings.push_back(std::move(finding));
}

}  // namespace

std::vector<RuleKind> backup_kinds() {
  return {{"backup-age", {{"limit", {"d"}}}, {}, judge_backup_age}};
}

}  // namespace benchwarden::rules
