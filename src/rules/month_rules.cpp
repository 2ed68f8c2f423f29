#include <algorithm>
#include <array>
#include <utility>

#include "rules/contents.h"
#include "rules/generator_months.h"
#include "rules/limits.h"
#include "rules/presumed_oil.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;

/// Which of the limits of a month a stream counts toward, by its attribute `acute`.
constexpr std::array<std::string_view, 3> kLimits{"limit", "acute", "spill_residue"};

std::string_view limit_of(const Holding& holding) {
  const std::string_view acute = tallies::word(*holding.stream_attributes, "acute");
  if (acute == "yes") return kLimits[1];
  return acute == "spill-residue" ? kLimits[2] : kLimits[0];
}

constexpr std::int64_t kMonthsMax = 120;

/// Used oil managed as such and excluded wipes stay out of a month where the rule says so.
bool is_left_out(const Rule& rule, const Holding& holding) {
  const std::string_view type = tallies::word(*holding.stream_attributes, "waste_type");
  if (type == "solvent-wipes") return rule.setting("solvent_wipes") == "left-out";
  return type == "used-oil" && rule.setting("used_oil") == "left-out";
}

/// Oil with more halogens than the rule's figure is not managed as such. Asked for each pour in
/// order of time, it looks at the tests of what stood together once.
class Halogens {
 public:
  Halogens(const Rule& rule, const Scene& scene, const Holding& holding)
      : most_(rule.figure("halogens")), scene_(scene), holding_(holding) {}

  bool too_many(std::size_t event) {
    if (most_ == nullptr ||
        tallies::word(*holding_.stream_attributes, "waste_type") != "used-oil") {
      return false;
    }
    if (!asked_ || event >= standing_.last) {
      asked_ = true;
      standing_ = scene_.state().timeline(holding_.container.id).standing_around(event);
      found_ = is_halogenated(scene_, holding_, standing_, *most_);
    }
    return found_;
  }

 private:
  const RuleFigure* most_;
  const Scene& scene_;
  const Holding& holding_;
  bool asked_ = false;
  tallies::Standing standing_;
  bool found_ = false;
};

/// The categories of a month, the smallest first.
constexpr std::array<std::string_view, 3> kCategories{"vsqg", "sqg", "lqg"};

/// A mass that arose.
struct Arisen {
  base::Instant at;
  std::uint64_t seq = 0;
  std::int64_t mass = 0;
};

/// What counts toward a limit in a month.
struct MonthCount {
  std::vector<Arisen> all;
  bool unweighed = false;  ///< something more arose, of a mass that is not known
};

void add_arisen(const Rule& rule, const Scene& scene, const Holding& holding,
                base::CivilMonth month, MonthCount& counted) {
  const tallies::Timeline& timeline = scene.state().timeline(holding.container.id);
  const bool left_out = is_left_out(rule, holding);
  Halogens halogens(rule, scene, holding);
  const base::Instant from = scene.zone().start_of(month);
  const base::Instant until =
      std::min(scene.zone().start_of(base::next_month(month)), just_after(scene.now()));
  const std::size_t last = timeline.count_before(until);
  for (std::size_t i = timeline.count_before(from); i < last; ++i) {
    const tallies::Event& event = timeline.events()[i];
    if (!event.arises || (left_out && !halogens.too_many(i))) continue;
    const auto mass = tallies::as_mass(holding.stream, event.amount);
    if (mass) {
      counted.all.push_back({event.at, event.seq, mass->count()});
    } else {
      counted.unweighed = true;
    }
  }
}

/// In order of time.
MonthCount counted_of(const Rule& rule, const Scene& scene, base::CivilMonth month,
                      std::string_view limit) {
  MonthCount counted;
  for (const Holding& holding : holdings(rule, scene, Retired::kIncluded)) {
    if (limit_of(holding) == limit) add_arisen(rule, scene, holding, month, counted);
  }
  std::sort(counted.all.begin(), counted.all.end(), [](const Arisen& a, const Arisen& b) {
    return a.at != b.at ? a.at < b.at : a.seq < b.seq;
  });
  return counted;
}

void judge_limit(const Rule& rule, const Scene& scene, base::CivilMonth month,
                 std::string_view name, Judgement& said) {
  const RuleFigure* limit = rule.figure(name);
  if (limit == nullptr) return;
  std::int64_t sum = 0;
  const Arisen* near = nullptr;
  const Arisen* over = nullptr;
  const MonthCount counted = counted_of(rule, scene, month, name);
  for (const Arisen& one : counted.all) {
    sum += one.mass;
    // Only the mass of a month that is not acute has a band that ends below its limit.
    const bool beyond =
        name == kLimits[0] ? is_beyond(rule, sum, *limit) : compare(sum, *limit) > 0;
    if (near == nullptr && is_near(rule, sum, *limit)) near = &one;
    if (over == nullptr && beyond) over = &one;
  }
  const bool this_month = month == base::month_of(scene.today());
  const Arisen* reached = over == nullptr && this_month ? near : over;
  if (reached == nullptr) return;
  auto finding = finding_of(rule, {}, over == nullptr ? "month-mass-due" : "month-mass-over",
                            over == nullptr ? Severity::kDue : Severity::kOver);
  finding.authority = rule.authority_of(*limit);
  finding.since = reached->at;
  finding.entries = {reached->seq};
  finding.values = {{"measured", shown_beside(sum, *limit)},
                    {"limit", shown(*limit)},
                    {"month", shown_word(base::format_month(month))},
                    {"category", shown_word(rule.setting("beyond"))}};
  said.findings.push_back(std::move(finding));
}

/// What arose in a calendar month against the category the workshop has notified: in the running
/// month, and in those before that the rule looks back to.
void judge_month_mass(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure* back = rule.figure("back");
  const std::int64_t months = back == nullptr ? 0 : back->value.thousandths / 1000;
  base::CivilMonth month = base::month_of(scene.today());
  for (std::int64_t left = months; left >= 0; --left) {
    for (const std::string_view name : kLimits) judge_limit(rule, scene, month, name, said);
    month = base::month_of(base::add_days(base::first_day(month), -1));
  }
}

/// The rule as it would hold whatever is notified.
Rule for_any_workshop(Rule rule) {
  std::erase_if(rule.applies,
                [](const Condition& one) { return one.of == Condition::Of::kWorkshop; });
  return rule;
}

/// Adds to `sum` what counts toward one limit of the month.
void add_counted(const Rule& rule, const Scene& scene, std::string_view limit,
                 findings::GeneratorMonth& told, std::int64_t& sum) {
  const MonthCount counted = counted_of(rule, scene, told.month, limit);
  for (const Arisen& one : counted.all) sum += one.mass;
  told.unweighed = told.unweighed || counted.unweighed;
}

bool goes_beyond(const Rule& rule, const findings::GeneratorMonth& month) {
  const RuleFigure* acute = rule.figure(kLimits[1]);
  const RuleFigure* residue = rule.figure(kLimits[2]);
  return is_beyond(rule, month.not_acute, *rule.figure(kLimits[0])) ||
         (acute != nullptr && compare(month.acute, *acute) > 0) ||
         (residue != nullptr && compare(month.spill_residue, *residue) > 0);
}

findings::GeneratorMonth told_of(const std::vector<Rule>& rules, const Scene& scene,
                                 base::CivilMonth month) {
  findings::GeneratorMonth told;
  told.month = month;
  add_counted(rules.front(), scene, kLimits[0], told, told.not_acute);
  add_counted(rules.front(), scene, kLimits[1], told, told.acute);
  add_counted(rules.front(), scene, kLimits[2], told, told.spill_residue);
  auto category = kCategories.begin();
  for (const Rule& rule : rules) {
    if (!goes_beyond(rule, told)) continue;
    category = std::max(category,
                        std::find(kCategories.begin(), kCategories.end(), rule.setting("beyond")));
  }
  const bool highest = std::next(category) == kCategories.end();
  if (highest || !told.unweighed) told.category = *category;
  return told;
}

}  // namespace

std::vector<findings::GeneratorMonth> generator_months(const RuleBook& book, const Scene& scene,
                                                       int year) {
  std::vector<Rule> rules;
  for (const Rule& rule : book.rules()) {
    if (rule.kind == "month-mass") rules.push_back(for_any_workshop(rule));
  }
  std::vector<findings::GeneratorMonth> months;
  if (rules.empty()) return months;
  for (int number = 1; number <= 12; ++number) {
    const base::CivilMonth month{year, number};
    if (base::first_day(month) > scene.today()) break;
    months.push_back(told_of(rules, scene, month));
  }
  return months;
}

std::vector<RuleKind> month_kinds() {
  return {{"month-mass",
           {{"limit", mass_units()},
            {"acute", mass_units(), false},
            {"spill_residue", mass_units(), false},
            halogens(),
            {"near", {"percent"}, false, FigureRange{1, 100}},
            {"back", {"months"}, false, FigureRange{0, kMonthsMax, true}}},
           {limit_is(),
            {"used_oil", {"counts", "left-out"}},
            {"solvent_wipes", {"counts", "left-out"}},
            {"beyond", {"sqg", "lqg"}}},
           judge_month_mass,
           "container"}};
}

}  // namespace benchwarden::rules
