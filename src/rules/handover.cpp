#include "rules/handover.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using base::CivilDate;
using findings::Subject;

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

int days_of(const Rule& rule, std::string_view figure) {
  return static_cast<int>(rule.figure(figure)->value.thousandths / 1000);
}

/// Reasons by container.
class Reasons {
 public:
  Reasons(const RuleBook& book, const Scene& scene) : book_(book), scene_(scene) {}

  void gather(const findings::Judgement& said) {
    constexpr std::array<std::string_view, 3> kDated{"storage-clock", "stored-quantity-clock",
                                                     "fill-forecast"};
    constexpr std::array<std::string_view, 2> kOver{"working-limit-over", "stored-quantity-over"};
    for (const findings::DueItem& due : said.due) {
      if (!is_one_of(kDated, due.says)) continue;
      const bool over = scene_.today() > due.day;
      add({due.day, due.authority, due.subject, due.says + (over ? "-over" : "-due"), due.values});
    }
    for (const findings::Finding& one : said.findings) {
      if (!is_one_of(kOver, one.says)) continue;
      add({scene_.today(), one.authority, one.subject, one.says, one.values});
    }
  }

  /// By day; empty for a container without any.
  [[nodiscard]] std::vector<HandoverReason> of(const std::string& container) const {
    const auto found = by_container_.find(container);
    if (found == by_container_.end()) return {};
    std::vector<HandoverReason> reasons = found->second;
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const auto& a, const auto& b) { return a.day < b.day; });
    return reasons;
  }

 private:
  void add(const HandoverReason& reason) {
    if (reason.subject.thing_class == "container") {
      by_container_[reason.subject.id].push_back(reason);
      return;
    }
    const Rule* rule = book_.find(reason.authority.rule);
    if (rule == nullptr) return;
    for (const Subject& container : scene_.subjects(*rule, "container")) {
      const auto room = tallies::word(scene_.attributes(container), "room");
      const bool counted = reason.subject.thing_class != "room" || room == reason.subject.id;
      if (counted) by_container_[container.id].push_back(reason);
    }
  }

  const RuleBook& book_;
  const Scene& scene_;
  std::map<std::string, std::vector<HandoverReason>> by_container_;
};

/// What stands in it by a day, going on as before, but never beyond its working limit.
std::int64_t expected_on(const HandoverLoad& load, CivilDate today, CivilDate day) {
  if (load.filling.none != NoForecast::kNone) return load.level.amount;
  const double more = load.filling.per_day * base::days_between(today, day);
  const auto expected = load.level.amount + static_cast<std::int64_t>(std::llround(more));
  return std::min(expected, load.level.working_limit);
}

CivilDate last_open_day(const Scene& scene, CivilDate day) {
  for (CivilDate open = day; open > scene.today(); open = base::add_days(open, -1)) {
    if (calculations::is_open(scene.opening(), open)) return open;
  }
  return scene.today();
}

bool holds_waste(const Scene& scene, const tallies::Level& level) {
  return !level.retired && level.amount > 0 &&
         tallies::container_facts(scene.state().under_care(), level.container).counts_waste;
}

/// Loads by day into what goes together.
std::vector<Handover> together(const Scene& scene, std::vector<HandoverLoad> loads, int window) {
  std::stable_sort(loads.begin(), loads.end(),
                   [](const auto& a, const auto& b) { return a.day < b.day; });
  std::vector<Handover> handovers;
  std::optional<CivilDate> last;
  for (HandoverLoad& load : loads) {
    if (!last || load.day > *last) {
      last = base::add_days(std::max(load.day, scene.today()), window);
      handovers.push_back({last_open_day(scene, load.day), {}});
    }
    Handover& handover = handovers.back();
    load.expected = expected_on(load, scene.today(), handover.day);
    handover.loads.push_back(std::move(load));
  }
  return handovers;
}

}  // namespace

const Rule* handover_rule(const RuleBook& book) {
  const auto found = std::find_if(book.rules().begin(), book.rules().end(),
                                  [](const Rule& rule) { return rule.kind == "handover"; });
  return found == book.rules().end() ? nullptr : &*found;
}

HandoverProposal propose_handovers(const RuleBook& book, const Scene& scene,
                                   const findings::Judgement& said) {
  HandoverProposal proposal;
  const Rule* rule = handover_rule(book);
  if (rule == nullptr) return proposal;
  Reasons reasons(book, scene);
  reasons.gather(said);
  const CivilDate ahead = base::add_days(scene.today(), days_of(*rule, "ahead"));
  std::vector<HandoverLoad> loads;
  for (tallies::Level& level : tallies::levels(scene.state(), just_after(scene.now()))) {
    if (!holds_waste(scene, level)) continue;
    HandoverLoad load;
    load.filling = filling_of(scene, level);
    load.reasons = reasons.of(level.container);
    load.level = std::move(level);
    if (load.reasons.empty()) {
      proposal.undated.push_back({std::move(load.level), load.filling});
      continue;
    }
    load.day = load.reasons.front().day;
    if (load.day <= ahead) loads.push_back(std::move(load));
  }
  proposal.handovers = together(scene, std::move(loads), days_of(*rule, "window"));
  return proposal;
}

}  // namespace benchwarden::rules
