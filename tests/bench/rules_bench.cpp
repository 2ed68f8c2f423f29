// Prints what judging costs by kind of rule: the demo's workshop after its fourteen months, and the
// same workshop after ten years, both in the same run. It judges no speed: machines differ.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <limits>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "forms/submission.h"
#include "rules/courses.h"
#include "rules/rule_kind.h"
#include "sqlite/temporary_folder.h"
#include "tallies/facts.h"
#include "tell.h"
#include "workshop/fold.h"
#include "workshop/judgement.h"
#include "workshop/open_book.h"
#include "workshop/project_files.h"

namespace {

using namespace benchwarden;

constexpr std::int64_t kStoryMs = 427LL * 86'400'000;  // that of the demo
constexpr int kStories = 9;                            // of them are somewhat more than ten years

class IdsAsNames : public workshop::NameBook {
 public:
  [[nodiscard]] std::string display_name(std::string_view person) const override {
    return std::string(person);
  }
  [[nodiscard]] std::optional<std::string> active_role(std::string_view) const override {
    return std::nullopt;
  }
};

/// The story of the demo in a book of its own.
class ToldDemo {
 public:
  explicit ToldDemo(base::Instant now)
      : open_(*workshop::OpenBook::open(folder_.path(), workshop::real_definitions(), clock_,
                                        names_)) {
    int persons = 0;
    demo::tell(open_->ports(), clock_, BENCHWARDEN_TOP "/demo/", now,
               [&](const demo::Person&) { return "p" + std::to_string(++persons); });
  }
  [[nodiscard]] const book::Book& book() const { return open_->ports().book; }

 private:
  benchwarden::testing::TemporaryFolder folder_;
  demo::StoryClock clock_;
  IdsAsNames names_;
  std::unique_ptr<workshop::OpenBook> open_;
};

template <class Visit>
void each_entry(const book::Book& book, const Visit& visit) {
  const auto read = book.each(1, [&](const entries::Entry& entry) -> base::Status<> {
    visit(entry);
    return base::Done{};
  });
  if (!read) std::abort();
}

/// What an entry did, done in an earlier story: the register is told of once, and a load taken then
/// is another than the one of now.
entries::Effects told_again(entries::Effects effects, int story) {
  std::erase_if(effects, [](const entries::Effect& effect) {
    return std::holds_alternative<entries::Changes>(effect) ||
           std::holds_alternative<entries::Confirms>(effect);
  });
  for (entries::Effect& effect : effects) {
    if (auto* takes = std::get_if<entries::Takes>(&effect)) {
      takes->collection += "-" + std::to_string(story);
    }
  }
  return effects;
}

/// The tallies after so many stories, one after the other; the last ends as the demo does.
tallies::State state_after(int stories, const book::Book& book) {
  const forms::Catalog& catalog = workshop::real_definitions().catalog;
  tallies::State state;
  each_entry(book, [&](const entries::Entry& entry) {
    if (!workshop::fold(state, entry, book, catalog)) std::abort();
  });
  std::uint64_t seq = state.size();
  for (int story = stories - 1; story > 0; --story) {
    each_entry(book, [&](const entries::Entry& entry) {
      if (entry.content.corrects) return;
      const base::Instant at{entry.content.occurred_at.instant.ms - story * kStoryMs};
      state.apply(tallies::Posting{++seq, at, at, true,
                                   told_again(forms::effects_of(catalog, entry.content), story)});
    });
  }
  return state;
}

/// Milliseconds of the processor, the least of some runs.
double milliseconds(const std::function<void()>& work) {
  constexpr int kRuns = 5;
  double best = std::numeric_limits<double>::max();
  for (int run = 0; run < kRuns; ++run) {
    const std::clock_t start = std::clock();
    work();
    best = std::min(best, 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  return best;
}

using Costs = std::map<std::string, double>;

/// All rules of a kind together, and what is asked for beside them.
Costs costs_of(const rules::RuleBook& book, const rules::Scene& scene) {
  std::map<std::string, std::vector<const rules::Rule*>> by_kind;
  for (const rules::Rule& rule : book.rules()) by_kind[rule.kind].push_back(&rule);
  Costs costs;
  for (const auto& [name, all] : by_kind) {
    const rules::RuleKind* kind = rules::find_kind(name);
    costs[name] = milliseconds([&] {
      findings::Judgement said;
      for (const rules::Rule* rule : all) kind->judge(*rule, scene, said);
    });
  }
  costs["(all rules)"] = milliseconds([&] { rules::judge(book, scene); });
  costs["(history of n1)"] = milliseconds([&] { rules::cylinder_course(book, scene, "n1"); });
  return costs;
}

}  // namespace

int main() {
  const base::Instant now = base::parse_rfc3339("2026-11-25T19:00:00Z")->instant;
  const ToldDemo told(now);
  std::map<int, Costs> costs;
  for (const int stories : {1, kStories}) {
    const tallies::State state = state_after(stories, told.book());
    const rules::Scene scene(state, now, workshop::zone_of(state));
    const auto pack = tallies::word(scene.workshop(), "rule_pack");
    costs[stories] = costs_of(workshop::rules_of(workshop::real_definitions(), pack), scene);
    std::printf("%llu entries\n", static_cast<unsigned long long>(state.size()));
  }
  std::vector<std::pair<double, std::string>> worst;
  for (const auto& [name, cost] : costs[kStories]) worst.emplace_back(cost, name);
  std::sort(worst.rbegin(), worst.rend());
  std::printf("%-24s %12s %12s %8s\n", "kind", "14 months", "ten years", "ratio");
  for (const auto& [cost, name] : worst) {
    std::printf("%-24s %9.3f ms %9.3f ms %8.1f\n", name.c_str(), costs[1][name], cost,
                cost / costs[1][name]);
  }
}
