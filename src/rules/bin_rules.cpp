#include <utility>

#include "rules/contents.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using tallies::EventKind;

/// The last look at close that found nothing in the bin.
std::optional<base::Instant> last_seen_empty(const Scene& scene, const findings::Subject& bin) {
  for (const tallies::Record* record : NewestFirst(scene, bin, {"rag-bin"})) {
    const auto fill = record->measure("fill_percent", "percent");
    if (fill && fill->value.thousandths == 0) return record->at;
  }
  return std::nullopt;
}

/// The first that came in since the bin was last empty; weighed or not.
const tallies::Event* first_content(const Scene& scene, const findings::Subject& bin) {
  const auto& events = scene.state().timeline(bin.id).events();
  const auto seen_empty = last_seen_empty(scene, bin);
  const tallies::Event* first = nullptr;
  for (auto event = events.rbegin(); event != events.rend(); ++event) {
    if (!event->acts || event->at > scene.now()) continue;
    if (event->kind == EventKind::kEmptied || (seen_empty && event->at <= *seen_empty)) break;
    if (event->kind == EventKind::kAdded || event->kind == EventKind::kMovedIn) first = &*event;
  }
  return first;
}

/// A working bin holds nothing over night: what came into it is out by the end of that day. Where
/// the rule counts working days, what came in on a closed day is out by the end of the next open
/// one.
void judge_daily_emptying(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const findings::Subject& bin : scene.subjects(rule, "container")) {
    if (tallies::word(scene.attributes(bin), "emptied_daily") != "yes") continue;
    const tallies::Event* content = first_content(scene, bin);
    if (content == nullptr) continue;
    Deadline deadline;
    deadline.subject = bin;
    deadline.says = "daily-emptying";
    const base::CivilDate start = scene.day_of(content->at);
    const auto open = calculations::next_open(scene.opening(), start);
    deadline.day = rule.working_days && open ? *open : start;
    deadline.values = {{"start", shown(start)}, {"day", shown(deadline.day)}};
    deadline.entries = {content->seq};
    judge_deadline(rule, scene, std::move(deadline), said);
  }
}

}  // namespace

std::vector<RuleKind> bin_kinds() {
  return {{"daily-emptying", {}, {}, judge_daily_emptying, "container"}};
}

}  // namespace benchwarden::rules
