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

/// The days on which something was recorded, from a day on.
class Activity {
 public:
  Activity(const Scene& scene, CivilDate from) : scene_(scene), from_(scene.zone().start_of(from)) {
    for (const auto& [thing_class, by_id] : scene.state().records().all()) {
      for (const auto& [id, records] : by_id)
        add(records, [](const auto& one) { return !one.struck; });
    }
    for (const auto& [id, thing] : scene.state().things("container")) {
      add(scene.state().timeline(id).events(), [](const auto& one) { return one.acts; });
    }
  }
  [[nodiscard]] bool on(CivilDate day) const { return days_.contains(day); }
  /// Whether anything was recorded before the first day looked at.
  [[nodiscard]] bool before() const { return before_; }

 private:
  template <class T, class Stands>
  void add(const std::vector<T>& all, const Stands& stands) {
    const auto first =
        std::partition_point(all.begin(), all.end(), [&](const T& one) { return one.at < from_; });
    before_ = before_ || first != all.begin();
    for (auto one = first; one != all.end() && one->at <= scene_.now(); ++one) {
      if (stands(*one)) days_.insert(scene_.day_of(one->at));
    }
  }

  const Scene& scene_;
  base::Instant from_;
  std::set<CivilDate> days_;
  bool before_ = false;
};

/// Open days in a row without an entry.
struct Run {
  CivilDate first;
  CivilDate last;
  int count = 0;
};

std::vector<Run> runs_of(const Scene& scene, CivilDate from) {
  const Activity activity(scene, from);
  std::vector<Run> runs;
  std::optional<Run> run;
  bool begun = activity.before();
  for (CivilDate day = from; day < scene.today(); day = base::add_days(day, 1)) {
    begun = begun || activity.on(day);
    if (activity.on(day)) {
      if (run) runs.push_back(*run);
      run.reset();
    } else if (begun && calculations::is_open(scene.opening(), day)) {
      if (!run) run = Run{day, day, 0};
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
  for (const Run& run : runs_of(scene, base::add_days(from, -span))) {
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
  return {{"days-without-entry", {{"span", {"d"}}}, {}, judge_days_without_entry}};
}

}  // namespace benchwarden::rules
