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

/// The entries of a kind about a thing from a moment on, each with its month.
template <class Visit>
void each_by_month(const Scene& scene, const findings::Subject& thing, const std::string& kind,
                   base::Instant from, const Visit& visit) {
  CivilMonth month;
  base::Instant begins{INT64_MAX};  // of the month: going back in time, few are met
  for (const tallies::Record* record : NewestFirst(scene, thing, {kind})) {
    if (record->at < from) break;
    if (record->at < begins) {
      month = scene.zone().month_of(record->at);
      begins = scene.zone().start_of(month);
    }
    visit(*record, month);
  }
}

/// What an entry poured in.
std::int64_t poured(const tallies::Timeline& timeline, const tallies::Record& record) {
  const auto& events = timeline.events();
  std::int64_t amount = 0;
  for (std::size_t i = timeline.count_before(record.at); i < events.size(); ++i) {
    const tallies::Event& event = events[i];
    if (event.at != record.at) break;
    const bool counts = event.seq == record.seq && event.acts;
    if (counts && event.kind == tallies::EventKind::kAdded) amount += event.amount;
  }
  return amount;
}

void add_drained(const Scene& scene, const std::string& container, base::Instant from,
                 Months& months) {
  const bool by_volume =
      tallies::container_facts(scene.state().under_care(), container).counted_by ==
      tallies::CountedBy::kVolume;
  const tallies::Timeline& timeline = scene.state().timeline(container);
  const auto add = [&](const tallies::Record& record, CivilMonth month) {
    const auto units = number_of(record, "unit_count", "1");
    if (!units) return;
    constexpr double kPerLitre = 1e6;
    const std::int64_t amount = by_volume ? poured(timeline, record) : 0;
    months[month].drained += *units;
    months[month].litres += static_cast<double>(amount) / kPerLitre;
  };
  each_by_month(scene, {"container", container}, "oil-drained", from, add);
}

Months drained_from(const Scene& scene, base::Instant from) {
  Months months;
  for (const auto& [id, records] : scene.state().records().of_class("container")) {
    add_drained(scene, id, from, months);
  }
  return months;
}

void add_charged(const Scene& scene, base::Instant from, Months& months) {
  const auto add = [&](const tallies::Record& record, CivilMonth month) {
    const auto units = number_of(record, "unit_count", "1");
    if (units) months[month].charged += *units;
  };
  for (const auto& [id, records] : scene.state().records().of_class("cylinder")) {
    each_by_month(scene, {"cylinder", id}, "gas-use", from, add);
  }
}

/// The first of the months that are over and among the last so many.
CivilMonth first_looked_at(const Rule& rule, const Scene& scene) {
  CivilMonth month = base::month_of(scene.today());
  for (auto left = static_cast<int>(as_number(*rule.figure("months"))); left > 0; --left) {
    month = base::month_of(base::add_days(base::first_day(month), -1));
  }
  return month;
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
  const base::Instant from = scene.zone().start_of(first_looked_at(rule, scene));
  Months months = drained_from(scene, from);
  add_charged(scene, from, months);
  for (const auto& [month, counts] : months) {
    if (month >= base::month_of(scene.today())) continue;
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
  const CivilMonth first = first_looked_at(rule, scene);
  for (const auto& [month, counts] : drained_from(scene, base::kEarliest)) {
    if (counts.drained <= 0) continue;
    const double per_unit = counts.litres / counts.drained;
    const double median = before.empty() ? 0 : median_of(before);
    const bool known = before.size() >= enough && median > 0;
    before.push_back(per_unit);
    if (!known || month < first || month >= base::month_of(scene.today())) continue;
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
