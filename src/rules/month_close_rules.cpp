#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using base::CivilMonth;

/// "2026-03" of every month whose closing stands.
std::set<std::string, std::less<>> closed_months(const Scene& scene) {
  std::set<std::string, std::less<>> months;
  for (const tallies::Record& record : scene.state().records("", "month-close")) {
    if (record.struck || record.at > scene.now()) continue;
    months.emplace(record.word("month"));
  }
  return months;
}

/// Whether anything happened to a container in the month.
bool has_events(const Scene& scene, CivilMonth month) {
  const base::Instant from = scene.zone().start_of(month);
  const base::Instant until = scene.zone().start_of(base::next_month(month));
  const auto& things = scene.state().things("container");
  return std::any_of(things.begin(), things.end(), [&](const auto& thing) {
    const auto& events = scene.state().timeline(thing.first).events();
    const auto event = std::partition_point(events.begin(), events.end(),
                                            [&](const auto& one) { return one.at < from; });
    return event != events.end() && event->at < until;
  });
}

/// A month that is over, in which waste was recorded, and that was not closed within `limit` of its
/// last day; as far back as `months`.
void judge_month_not_closed(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  const auto closed = closed_months(scene);
  const std::int64_t months = rule.figure("months")->value.thousandths / 1000;
  CivilMonth month = base::month_of(scene.today());
  for (std::int64_t left = months; left > 0; --left) {
    const base::CivilDate last = base::add_days(base::first_day(month), -1);
    month = base::month_of(last);
    const std::string name = base::format_month(month);
    if (closed.contains(name) || !has_events(scene, month)) continue;
    const base::CivilDate day = scene.later(rule, "limit", last);
    judge_deadline(rule, scene,
                   {{"month", name}, "month-not-closed", day, {{"day", shown(day)}}, {}}, said);
  }
}

}  // namespace

std::vector<RuleKind> month_close_kinds() {
  return {{"month-not-closed",
           {{"limit", {"d"}},
            {"warn", {"d"}, false},
            {"months", {"months"}, true, FigureRange{1, 120, true}}},
           {},
           judge_month_not_closed}};
}

}  // namespace benchwarden::rules
