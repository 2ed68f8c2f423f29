#include <algorithm>
#include <optional>
#include <set>
#include <string>

#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using findings::Judgement;

/// The days on which something was recorded: the last one before a day, and all from it on.
class Activity {
 public:
  Activity(const Scene& scene, CivilDate from) : scene_(scene), from_(scene.zone().start_of(from)) {
    for (const auto& [thing_class, by_id] : scene.state().records().all()) {
      for (const auto& [id, records] : by_id) {
        // The program records one every night, whether anybody works or not.
        if (thing_class.empty() && id == "backup-made") continue;
        add(records, [](const auto& one) { return !one.struck; });
      }
    }
    for (const auto& [id, thing] : scene.state().things("container")) {
      add(scene.state().timeline(id).events(), [](const auto& one) { return one.acts; });
    }
  }
  [[nodiscard]] bool on(CivilDate day) const { return days_.contains(day); }
  /// The first of them; none where nothing was ever recorded.
  [[nodiscard]] std::optional<CivilDate> first() const {
    return days_.empty() ? std::nullopt : std::optional(*days_.begin());
  }

 private:
  template <class List, class Stands>
  void add(const List& all, const Stands& stands) {
    const auto first = std::partition_point(all.begin(), all.end(),
                                            [&](const auto& one) { return one.at < from_; });
    const auto before = std::find_if(std::make_reverse_iterator(first), all.rend(), stands);
    if (before != all.rend()) keep_last(scene_.day_of(before->at));
    for (auto one = first; one != all.end() && one->at <= scene_.now(); ++one) {
      if (stands(*one)) days_.insert(scene_.day_of(one->at));
    }
  }

  /// Of the days before the first looked at, only the last matters.
  void keep_last(CivilDate day) {
    if (!days_.empty() && scene_.zone().start_of(*days_.begin()) < from_) {
      if (day <= *days_.begin()) return;
      days_.erase(days_.begin());
    }
    days_.insert(day);
  }

  const Scene& scene_;
  base::Instant from_;
  std::set<CivilDate> days_;
};

/// Open days in a row without an entry.
struct IdleRun {
  CivilDate first;
  CivilDate last;
  int count = 0;
};

/// Those that end on a day or later, each from where it began.
std::vector<IdleRun> runs_of(const Scene& scene, CivilDate from) {
  const Activity activity(scene, from);
  std::vector<IdleRun> runs;
  std::optional<IdleRun> run;
  const CivilDate begun = activity.first().value_or(scene.today());
  for (CivilDate day = begun; day < scene.today(); day = base::add_days(day, 1)) {
    if (activity.on(day)) {
      if (run) runs.push_back(*run);
      run.reset();
    } else if (calculations::is_open(scene.opening(), day)) {
      if (!run) run = IdleRun{day, day, 0};
      run->last = day;
      ++run->count;
    }
  }
  if (run) runs.push_back(*run);
  return runs;
}

/// Open days of the last `span` days on which nothing was recorded, in rows. Says nothing before
/// the first entry, nor where no opening days were entered.
void judge_days_without_entry(const Rule& rule, const Scene& scene, Judgement& said) {
  if (entries::find_field(scene.workshop(), "opening_days") == nullptr) return;
  const auto span = static_cast<int>(rule.figure("span")->value.thousandths / 1000);
  const CivilDate from = base::add_days(scene.today(), -span);
  for (const IdleRun& run : runs_of(scene, from)) {
    if (run.last < from) continue;
    auto finding = finding_of(rule, {}, "days-without-entry", findings::Severity::kNote,
                              scene.after(run.first));
    finding.values = {{"measured", shown_word(std::to_string(run.count))},
                      {"start", shown(run.first)},
                      {"day", shown(run.last)}};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> idle_kinds() {
  return {{"days-without-entry",
           {{"span", {"d"}, true, FigureRange{1, 366, true}}},
           {},
           judge_days_without_entry}};
}

}  // namespace benchwarden::rules
