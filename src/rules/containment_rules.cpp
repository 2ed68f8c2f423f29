#include <algorithm>
#include <map>
#include <utility>

#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;

struct InBund {
  findings::Subject container;
  base::Instant since;                   ///< when it came to stand there, as the register tells
  std::int64_t capacity = 0;             ///< µL
  std::optional<std::int64_t> retained;  ///< µL, what its bund holds back as the register says
  bool drum = false;
};
/// Containers that say the same words for their bund or drip tray share it. One that names none
/// stands alone.
using Bunds = std::map<std::string, std::vector<InBund>>;

std::optional<std::int64_t> litres_in(const entries::Fields& attributes, std::string_view name) {
  const auto litres = tallies::measure(attributes, name, "l");
  return litres ? std::optional(quantities::microlitres(*litres).count()) : std::nullopt;
}

Bunds bunds(const Rule& rule, const Scene& scene) {
  Bunds found;
  for (const Holding& holding : holdings(rule, scene, Retired::kLeftOut)) {
    const auto capacity = litres_in(*holding.attributes, "capacity_l");
    const RuleFigure* above = rule.figure("above");
    if (!capacity || (above != nullptr && compare(*capacity, *above) <= 0)) continue;
    const std::string_view bund = tallies::word(*holding.attributes, "bund");
    // No bund is called like this: words of the register hold no line break.
    const std::string key = bund.empty() ? "\n" + holding.container.id : std::string(bund);
    found[key].push_back(
        {holding.container,
         entered_since(scene, holding.container.id, {"capacity_l", "bund", "bund_volume_l"}),
         *capacity, litres_in(*holding.attributes, "bund_volume_l"),
         tallies::word(*holding.attributes, "shape") == "drum"});
  }
  return found;
}

/// The rule's share of the largest or of all, whichever is more, in µL; up, never down.
std::int64_t required(const Rule& rule, const std::vector<InBund>& group) {
  std::int64_t largest = 0;
  std::int64_t sum = 0;
  for (const InBund& one : group) {
    largest = std::max(largest, one.capacity);
    sum += one.capacity;
  }
  const auto share = [&](std::string_view figure, std::int64_t amount) {
    constexpr std::int64_t kWhole = 100'000;
    const std::int64_t percent = rule.figure(figure)->value.thousandths;
    return amount / kWhole * percent + (amount % kWhole * percent + kWhole - 1) / kWhole;
  };
  return std::max(share("of_largest", largest), share("of_all", sum));
}

/// Nothing when no container of the group tells what its bund holds; the largest of what they tell.
std::optional<std::int64_t> retained_by(const std::vector<InBund>& group) {
  std::optional<std::int64_t> found;
  for (const InBund& one : group) found = std::max(found, one.retained);
  return found;
}

bool is_meant(const Rule& rule, const std::vector<InBund>& group) {
  const std::string_view drums = rule.setting("drums");
  const bool only =
      std::all_of(group.begin(), group.end(), [](const InBund& one) { return one.drum; });
  return drums == "any" || (drums == "only") == only;
}

/// What the bund of some containers holds back, against their capacities. It is said of the one
/// that came last, since then.
void judge_containment(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const auto& [bund, group] : bunds(rule, scene)) {
    if (!is_meant(rule, group)) continue;
    const std::int64_t limit = required(rule, group);
    const auto retained = retained_by(group);
    if (retained && *retained >= limit) continue;
    const auto newest =
        std::max_element(group.begin(), group.end(),
                         [](const InBund& a, const InBund& b) { return a.since < b.since; });
    auto finding =
        finding_of(rule, newest->container,
                   retained ? "containment-over" : "containment-unknown-over", weight(rule));
    finding.since = newest->since;
    if (retained) {
      finding.values = shown_apart(*retained, limit, true);
    } else {
      finding.values = {{"limit", shown_amount(limit, true)}};
    }
    finding.values.emplace_back("count",
                                shown(base::Decimal{1000 * static_cast<int>(group.size())}, "1"));
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> containment_kinds() {
  return {{"containment",
           {{"of_largest", {"percent"}}, {"of_all", {"percent"}}, {"above", volume_units(), false}},
           {weighs(), {"drums", {"any", "only", "not-only"}}},
           judge_containment,
           "container"}};
}

}  // namespace benchwarden::rules
