#include <algorithm>
#include <map>
#include <utility>

#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;
using findings::Subject;

/// What is summed against one limit: one container, those of a room, all of the site.
using Groups = std::map<Subject, std::vector<Holding>>;

Groups grouped(const Rule& rule, const Scene& scene) {
  Groups groups;
  const std::string_view per = rule.setting("per");
  for (Holding& holding : holdings(rule, scene, Retired::kLeftOut)) {
    if (!takes_content(rule, scene, holding.container)) continue;
    Subject group;
    const std::string room(tallies::word(*holding.attributes, "room"));
    if (per == "container" || (per == "room" && room.empty())) {
      group = holding.container;
    } else if (per == "room") {
      group = {"room", room};
    }
    groups[std::move(group)].push_back(std::move(holding));
  }
  return groups;
}

std::int64_t held(const std::vector<Holding>& group, const Scene& scene, bool volume) {
  std::int64_t sum = 0;
  for (const Holding& holding : group) {
    const auto& timeline = scene.state().timeline(holding.container.id);
    const std::int64_t level =
        std::max<std::int64_t>(timeline.level_at(just_after(scene.now())), 0);
    sum += measured_as(holding.stream, level, volume).value_or(0);
  }
  return sum;
}

/// The entry that changed the sum of a group.
struct Step {
  base::Instant at;
  std::uint64_t seq = 0;
};

/// What a group held in sum, event by event, from now back.
class Backwards {
 public:
  Backwards(const std::vector<Holding>& group, const Scene& scene, bool volume) : volume_(volume) {
    for (const Holding& holding : group) {
      const tallies::Timeline& timeline = scene.state().timeline(holding.container.id);
      Course course{&holding.stream, &timeline.events(),
                    timeline.count_before(just_after(scene.now()))};
      settle(course);
      sum_ += course.amount;
      courses_.push_back(course);
    }
  }
  /// After the event that is looked at.
  [[nodiscard]] std::int64_t sum() const { return sum_; }
  /// That event; none at the beginning of the book. Of what one entry did the last, by the group.
  [[nodiscard]] std::optional<Step> step() const {
    const std::size_t from = newest();
    if (from == courses_.size()) return std::nullopt;
    return Step{last_of(courses_[from]).at, last_of(courses_[from]).seq};
  }
  void go_back() {
    Course& course = courses_[newest()];
    sum_ -= course.amount;
    --course.left;
    settle(course);
    sum_ += course.amount;
  }

 private:
  /// One container: the events still to come, and what it held after the last of them.
  struct Course {
    const tallies::StreamFacts* stream;
    const tallies::Events* events;
    std::size_t left;
    std::int64_t amount = 0;
  };

  /// Passes over levels that cannot be told in what the limit is given in.
  void settle(Course& course) const {
    course.amount = 0;
    for (; course.left > 0; --course.left) {
      const std::int64_t level = (*course.events)[course.left - 1].level;
      const auto amount = measured_as(*course.stream, std::max<std::int64_t>(level, 0), volume_);
      if (!amount) continue;
      course.amount = *amount;
      return;
    }
  }
  [[nodiscard]] std::size_t newest() const {
    std::size_t found = courses_.size();
    for (std::size_t i = 0; i < courses_.size(); ++i) {
      if (courses_[i].left == 0) continue;
      if (found == courses_.size() || !is_older(courses_[i], courses_[found])) found = i;
    }
    return found;
  }
  static const tallies::Event& last_of(const Course& course) {
    return (*course.events)[course.left - 1];
  }
  static bool is_older(const Course& a, const Course& b) {
    const tallies::Event& one = last_of(a);
    const tallies::Event& other = last_of(b);
    return one.at != other.at ? one.at < other.at : one.seq < other.seq;
  }

  bool volume_;
  std::vector<Course> courses_;
  std::int64_t sum_ = 0;
};

/// The entry that took the sum to where `passed` holds, and it has held since.
template <class Passed>
Step passing(const std::vector<Holding>& group, const Scene& scene, bool volume, Passed passed) {
  Backwards course(group, scene, volume);
  while (course.step() && !passed(course.sum())) course.go_back();
  Step found;
  while (course.step() && passed(course.sum())) {
    found = *course.step();
    course.go_back();
  }
  return found;
}

findings::Values values_of(const RuleFigure& limit, std::int64_t sum) {
  return {{"measured", shown_beside(sum, limit)}, {"limit", shown(limit)}};
}

void say_clock(const Rule& rule, const Scene& scene, const Subject& subject, const Step& step,
               findings::Values values, Judgement& said) {
  Deadline deadline;
  deadline.subject = subject;
  deadline.says = "stored-quantity-clock";
  const base::CivilDate start = scene.day_of(step.at);
  deadline.day = scene.later(rule, "within", start);
  deadline.values = std::move(values);
  deadline.values.emplace_back("start", shown(start));
  deadline.values.emplace_back("day", shown(deadline.day));
  deadline.entries = {step.seq};
  judge_deadline(rule, scene, std::move(deadline), said);
}

/// What stands in containers in sum against a limit. With a figure `within`, being beyond it is in
/// order for so long: from the day it was passed.
void judge_stored_quantity(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  const bool volume = is_volume(limit);
  for (const auto& [subject, group] : grouped(rule, scene)) {
    const std::int64_t sum = held(group, scene, volume);
    const bool beyond = is_beyond(rule, sum, limit);
    if (!beyond && !is_near(rule, sum, limit)) continue;
    const Step step = passing(group, scene, volume, [&](std::int64_t amount) {
      return beyond ? is_beyond(rule, amount, limit) : is_near(rule, amount, limit);
    });
    if (rule.figure("within") != nullptr) {
      if (beyond) say_clock(rule, scene, subject, step, values_of(limit, sum), said);
      continue;
    }
    auto finding =
        finding_of(rule, subject, beyond ? "stored-quantity-over" : "stored-quantity-due",
                   beyond ? weight(rule) : std::min(weight(rule), Severity::kDue));
    finding.since = step.at;
    finding.values = values_of(limit, sum);
    finding.entries = {step.seq};
    said.findings.push_back(std::move(finding));
  }
}

/// What containers of at least `smallest` could hold in sum, full or not, against a limit: since
/// the one that took it beyond was first used.
void judge_stored_capacity(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  const RuleFigure* smallest = rule.figure("smallest");
  std::vector<std::pair<base::Instant, std::int64_t>> capacities;
  for (const Holding& holding : holdings(rule, scene, Retired::kLeftOut)) {
    const auto capacity = tallies::measure(*holding.attributes, "capacity_l", "l");
    if (!capacity) continue;
    const std::int64_t litres = quantities::microlitres(*capacity).count();
    if (smallest != nullptr && compare(litres, *smallest) < 0) continue;
    capacities.emplace_back(entered_since(scene, holding.container.id, {"capacity_l"}), litres);
  }
  std::sort(capacities.begin(), capacities.end());
  std::int64_t sum = 0;
  std::optional<base::Instant> since;
  for (const auto& [used, litres] : capacities) {
    sum += litres;
    if (!since && is_beyond(rule, sum, limit)) since = used;
  }
  if (!since) return;
  auto finding = finding_of(rule, {}, "stored-capacity-over", weight(rule));
  finding.since = *since;
  finding.values = values_of(limit, sum);
  said.findings.push_back(std::move(finding));
}

}  // namespace

std::vector<RuleKind> quantity_kinds() {
  return {{"stored-quantity",
           {{"limit", amount_units()},
            {"near", {"percent"}, false, FigureRange{1, 100}},
            {"within", {"d", "months"}, false},
            {"warn", {"d"}, false},
            halogens()},
           {limit_is(), weighs(), {"per", {"container", "room", "site"}}},
           judge_stored_quantity,
           "container"},
          {"stored-capacity",
           {{"limit", volume_units()}, {"smallest", volume_units(), false}},
           {limit_is(), weighs()},
           judge_stored_capacity,
           "container"}};
}

}  // namespace benchwarden::rules
