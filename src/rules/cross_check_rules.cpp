#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using base::CivilMonth;
using findings::Judgement;
using findings::Severity;

/// What was done in one month, by what its entries count.
struct Month {
  double charged = 0;  ///< units, by entries of gas use
  double drained = 0;  ///< units, by entries of oil drained that say how many
  double litres = 0;   ///< of the same entries
};
using Months = std::map<CivilMonth, Month>;

/// What each entry poured into a container, by its number.
std::map<std::uint64_t, std::int64_t> poured(const Scene& scene, const std::string& container) {
  std::map<std::uint64_t, std::int64_t> amounts;
  if (tallies::container_facts(scene.state().under_care(), container).counted_by !=
      tallies::CountedBy::kVolume) {
    return amounts;
  }
  for (const tallies::Event& event : scene.state().timeline(container).events()) {
    if (event.kind == tallies::EventKind::kAdded && event.acts) amounts[event.seq] += event.amount;
  }
  return amounts;
}

void add_drained(const Scene& scene, Months& months) {
  for (const auto& [id, records] : scene.state().records().of_class("container")) {
    std::optional<std::map<std::uint64_t, std::int64_t>> amounts;
    for (const tallies::Record* record : told_of(scene, {"container", id}, {"oil-drained"})) {
      const auto units = number_of(record->fields(), "unit_count", "1");
      if (!units) continue;
      if (!amounts) amounts = poured(scene, id);
      Month& month = months[scene.zone().month_of(record->at)];
      month.drained += *units;
      constexpr double kPerLitre = 1e6;
      month.litres += static_cast<double>((*amounts)[record->seq]) / kPerLitre;
    }
  }
}

void add_charged(const Scene& scene, Months& months) {
  for (const auto& [id, records] : scene.state().records().of_class("cylinder")) {
    for (const tallies::Record* record : told_of(scene, {"cylinder", id}, {"gas-use"})) {
      const auto units = number_of(record->fields(), "unit_count", "1");
      if (units) months[scene.zone().month_of(record->at)].charged += *units;
    }
  }
}

Months months_of(const Scene& scene) {
  Months months;
  add_charged(scene, months);
  add_drained(scene, months);
  return months;
}

/// Whether a month is over, and among the last so many.
bool is_looked_at(const Rule& rule, const Scene& scene, CivilMonth month) {
  const CivilMonth now = base::month_of(scene.today());
  const int back = (now.year - month.year) * 12 + now.month - month.month;
  return back >= 1 && back <= static_cast<int>(as_number(*rule.figure("months")));
}

findings::Finding month_finding(const Rule& rule, const Scene& scene, std::string_view says,
                                CivilMonth month) {
  auto finding = finding_of(rule, {}, says, Severity::kNote, scene.after(base::last_day(month)));
  finding.values = {{"month", shown_word(base::format_month(month))}};
  return finding;
}

/// Months in which the units charged and the units drained differ by more than `share` of the
/// larger count. A unit that is serviced is both, so one of the two was not entered.
void judge_charged_drained(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const auto& [month, counts] : months_of(scene)) {
    if (!is_looked_at(rule, scene, month)) continue;
    const double larger = std::max(counts.charged, counts.drained);
    const double share = 100 * std::abs(counts.charged - counts.drained) / larger;
    if (larger <= 0 || share <= as_number(*rule.figure("share"))) continue;
    auto finding = month_finding(rule, scene, "charged-drained", month);
    finding.values.emplace_back("measured", shown_number(counts.charged, ""));
    finding.values.emplace_back("drained", shown_number(counts.drained, ""));
    finding.values.emplace_back("limit", shown(*rule.figure("share")));
    said.findings.push_back(std::move(finding));
  }
}

double median_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t middle = values.size() / 2;
  return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

/// Months in which the oil of a unit differs from the median of the months before by more than
/// `share`. With `months_before` of them or more, else nothing is said.
void judge_litres_per_unit(const Rule& rule, const Scene& scene, Judgement& said) {
  std::vector<double> before;
  const auto enough = static_cast<std::size_t>(as_number(*rule.figure("months_before")));
  for (const auto& [month, counts] : months_of(scene)) {
    if (counts.drained <= 0) continue;
    const double per_unit = counts.litres / counts.drained;
    const double median = before.empty() ? 0 : median_of(before);
    const bool known = before.size() >= enough && median > 0;
    before.push_back(per_unit);
    if (!known || !is_looked_at(rule, scene, month)) continue;
    if (100 * std::abs(per_unit - median) / median <= as_number(*rule.figure("share"))) continue;
    auto finding = month_finding(rule, scene, "litres-per-unit", month);
    finding.values.emplace_back("measured", shown_number(per_unit, "l"));
    finding.values.emplace_back("limit", shown(*rule.figure("share")));
    finding.values.emplace_back("median", shown_number(median, "l"));
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> cross_check_kinds() {
  const FigureSpec months{"months", {"months"}, true, FigureRange{1, 120, true}};
  const FigureSpec share{"share", {"percent"}};
  return {{"charged-drained", {months, share}, {}, judge_charged_drained},
          {"litres-per-unit",
           {months, share, {"months_before", {"months"}, true, FigureRange{1, 120, true}}},
           {},
           judge_litres_per_unit}};
}

}  // namespace benchwarden::rules
