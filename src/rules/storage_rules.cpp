#include <utility>

#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "tallies/levels.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

bool counts_waste(const Scene& scene, const Subject& container) {
  return tallies::container_facts(scene.state().under_care(), container.id).counts_waste;
}

/// How long content may stand: from the day the first of it came in, in a container that counts
/// waste, `limit` days or months. That day so much later is the last allowed one, or the day before
/// it where the source says less than.
void judge_storage_clock(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& container : scene.subjects(rule, "container")) {
    if (!counts_waste(scene, container)) continue;
    const auto oldest =
        scene.state().timeline(container.id).oldest_content(just_after(scene.now()));
    if (!oldest) continue;
    const base::CivilDate start = scene.day_of(*oldest);
    Deadline deadline;
    deadline.subject = container;
    deadline.says = "storage-clock";
    deadline.day = scene.later(rule, "limit", start);
    if (rule.setting("limit_is") == "below") deadline.day = base::add_days(deadline.day, -1);
    deadline.values = {{"measured", shown_days(base::days_between(start, scene.today()))},
                       {"limit", shown(*rule.figure("limit"))},
                       {"start", shown(start)},
                       {"day", shown(deadline.day)}};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

/// A container filled beyond its working limit, since it was.
void judge_working_limit(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const tallies::Level& level : tallies::levels(scene.state(), just_after(scene.now()))) {
    const Subject container{"container", level.container};
    if (level.retired || level.working_limit == 0 || level.amount <= level.working_limit) continue;
    if (!scene.applies(rule, container)) continue;
    const bool by_volume = level.stream.counted_by == tallies::CountedBy::kVolume;
    const auto& events = scene.state().timeline(level.container).events();
    auto finding = finding_of(rule, container, "working-limit-over", findings::Severity::kOver);
    finding.values = {{"measured", shown_amount(level.amount, by_volume)},
                      {"limit", shown_amount(level.working_limit, by_volume)}};
    for (auto event = events.rbegin(); event != events.rend(); ++event) {
      if (event->at > scene.now()) continue;
      if (event->level <= level.working_limit) break;
      finding.since = event->at;
      finding.entries = {event->seq};
    }
    said.findings.push_back(std::move(finding));
  }
}

/// More was taken out of a container than was ever logged into it, since its log fell below 0.
void judge_below_zero(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const tallies::Level& level : tallies::levels(scene.state(), just_after(scene.now()))) {
    const Subject container{"container", level.container};
    if (level.retired || level.amount >= 0 || !scene.applies(rule, container)) continue;
    const bool by_volume = level.stream.counted_by == tallies::CountedBy::kVolume;
    auto finding = finding_of(rule, container, "log-below-zero-over", findings::Severity::kOver);
    finding.values = {{"measured", shown_amount(level.amount, by_volume)}};
    const auto& events = scene.state().timeline(level.container).events();
    for (auto event = events.rbegin(); event != events.rend(); ++event) {
      if (event->at > scene.now()) continue;
      if (event->level >= 0) break;
      finding.since = event->at;
      finding.entries = {event->seq};
    }
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> storage_kinds() {
  return {{"storage-clock",
           {{"limit", {"d", "months", "years"}}, {"warn", {"d"}, false}},
           {limit_is()},
           judge_storage_clock,
           "container"},
          {"working-limit", {}, {}, judge_working_limit, "container"},
          {"log-below-zero", {}, {}, judge_below_zero, "container"}};
}

}  // namespace benchwarden::rules
