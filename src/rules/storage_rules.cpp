#include <algorithm>
#include <functional>
#include <utility>

#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "tallies/content_age.h"
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
/// it where the source says less than. What was poured over is as old as it was before, as far as
/// the clock of the rule ran there.
void judge_storage_clock(const Rule& rule, const Scene& scene, Judgement& said) {
  tallies::ContentAges ages(scene.state(), [&](const std::string& id) {
    const Subject container{"container", id};
    const bool runs = counts_waste(scene, container) && scene.applies(rule, container);
    return runs ? std::optional(clock_from(rule, scene, container)) : std::nullopt;
  });
  for (const Subject& container : scene.subjects(rule, "container")) {
    if (!counts_waste(scene, container) || !takes_content(rule, scene, container)) continue;
    const auto oldest = ages.oldest(container.id, just_after(scene.now()));
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

/// Its working limit as the register had it at that moment.
std::int64_t limit_at(const Scene& scene, const tallies::Level& level, base::Instant at) {
  const auto thing = scene.state().under_care().thing_at("container", level.container, at);
  return thing ? tallies::working_limit(thing->attributes, level.stream) : level.working_limit;
}

/// The last moment before another at which what is in a container or its limit changed.
std::optional<base::Instant> last_turn(const Scene& scene, const std::string& container,
                                       base::Instant before) {
  const tallies::Timeline& timeline = scene.state().timeline(container);
  const std::size_t events = timeline.count_before(before);
  std::optional<base::Instant> last;
  if (events > 0) last = timeline.events()[events - 1].at;
  for (const base::Instant said : scene.state().under_care().said_at("container", container)) {
    if (said < before && (!last || said > *last)) last = said;
  }
  return last;
}

/// Since when a container has been beyond what its limit was at each moment.
base::Instant beyond_since(const Scene& scene, const tallies::Level& level) {
  const tallies::Timeline& timeline = scene.state().timeline(level.container);
  base::Instant since = scene.now();
  auto turn = last_turn(scene, level.container, just_after(scene.now()));
  while (turn) {
    const std::int64_t limit = limit_at(scene, level, *turn);
    if (limit == 0 || timeline.level_at(just_after(*turn)) <= limit) break;
    since = *turn;
    turn = last_turn(scene, level.container, since);
  }
  return since;
}

/// A container whose limit is a volume, while its content is counted by mass and its stream has no
/// density: neither can be held against the other. Since its oldest content.
void say_no_density(const Rule& rule, const Scene& scene, const tallies::Level& level,
                    Judgement& said) {
  const Subject container{"container", level.container};
  const entries::Fields& known = scene.attributes(container);
  const auto capacity = tallies::measure(known, "capacity_l", "l");
  const bool limited = capacity && tallies::measure(known, "working_limit_percent", "percent");
  const bool by_mass = level.stream.counted_by == tallies::CountedBy::kMass;
  if (!limited || !by_mass || level.stream.density || !level.oldest_content) return;
  if (level.amount <= 0) return;
  auto finding = finding_of(rule, container, "working-limit-unknown", findings::Severity::kNote);
  finding.since = *level.oldest_content;
  finding.values = {{"measured", shown_amount(level.amount, false)},
                    {"limit", shown(capacity->value, "l")}};
  said.findings.push_back(std::move(finding));
}

/// A container filled beyond its working limit, since it was.
void judge_working_limit(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const tallies::Level& level : tallies::levels(scene.state(), just_after(scene.now()))) {
    const Subject container{"container", level.container};
    if (level.retired || !scene.applies(rule, container)) continue;
    if (level.working_limit == 0) say_no_density(rule, scene, level, said);
    if (level.working_limit == 0 || level.amount <= level.working_limit) continue;
    const bool by_volume = level.stream.counted_by == tallies::CountedBy::kVolume;
    auto finding = finding_of(rule, container, "working-limit-over", findings::Severity::kOver);
    finding.values = shown_apart(level.amount, level.working_limit, by_volume);
    finding.since = beyond_since(scene, level);
    const tallies::Timeline& timeline = scene.state().timeline(level.container);
    const std::size_t after = timeline.count_before(just_after(finding.since));
    for (std::size_t i = timeline.count_before(finding.since); i < after; ++i) {
      const tallies::Event& event = timeline.events()[i];
      const bool began = event.level > level.working_limit;
      if (began && finding.entries.empty()) finding.entries = {event.seq};
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
           {{"limit", {"d", "months", "years"}}, {"warn", {"d"}, false}, halogens()},
           {limit_is(), starts_with()},
           judge_storage_clock,
           "container"},
          {"working-limit", {}, {}, judge_working_limit, "container"},
          {"log-below-zero", {}, {}, judge_below_zero, "container"}};
}

}  // namespace benchwarden::rules
