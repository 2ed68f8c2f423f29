#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "rules/gauge_facts.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;
using findings::Subject;

/// A gauge of the register with its last inspection that has points.
struct Inspected {
  Subject gauge;
  GaugeFacts facts;
  const tallies::Record* inspection = nullptr;
  std::vector<GaugePoint> points;
};

std::vector<Inspected> inspected_gauges(const Rule& rule, const Scene& scene) {
  std::vector<Inspected> found;
  for (const Subject& gauge : scene.subjects(rule, "gauge")) {
    const auto facts = gauge_of(scene.attributes(gauge));
    if (!facts) continue;
    for (const tallies::Record* inspection : NewestFirst(scene, gauge, {"tool-inspection"})) {
      auto points = points_of(*inspection);
      if (points.empty()) continue;
      found.push_back({gauge, *facts, inspection, std::move(points)});
      break;
    }
  }
  return found;
}

/// As it was left; where nothing was adjusted, as found.
bool left_within(const Inspected& one) {
  std::vector<GaugePoint> left = one.points;
  for (GaugePoint& point : left) point.as_found = point.as_left.value_or(point.as_found);
  const auto worst = worst_point(one.facts, left);
  return worst && is_within(worst->error, worst->limit);
}

/// A gauge that its last inspection found outside its class. A note once it was left within: what
/// was read from it before is still in doubt.
void judge_gauge_error(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Inspected& one : inspected_gauges(rule, scene)) {
    const auto worst = worst_point(one.facts, one.points);
    if (!worst || is_within(worst->error, worst->limit)) continue;
    const bool adjusted = left_within(one);
    auto finding =
        finding_of(rule, one.gauge, adjusted ? "gauge-error-adjusted" : "gauge-error-over",
                   adjusted ? Severity::kNote : Severity::kOver, one.inspection->at);
    finding.values = {{"measured", shown_number(std::abs(worst->error), "bar")},
                      {"limit", shown_number(worst->limit, "bar")},
                      {"point", shown_number(worst->reference, "bar")},
                      {"day", shown(scene.day_of(one.inspection->at))}};
    finding.entries = {one.inspection->seq};
    said.findings.push_back(std::move(finding));
  }
}

/// The largest difference between what a gauge read at one pressure rising and falling.
double hysteresis(const std::vector<GaugePoint>& points) {
  std::map<double, std::pair<double, double>> read;  // lowest and highest at each pressure
  for (const GaugePoint& point : points) {
    const auto [at, is_new] = read.try_emplace(point.reference, point.as_found, point.as_found);
    if (is_new) continue;
    at->second.first = std::min(at->second.first, point.as_found);
    at->second.second = std::max(at->second.second, point.as_found);
  }
  double largest = 0;
  for (const auto& [reference, ends] : read) largest = std::max(largest, ends.second - ends.first);
  return largest;
}

/// A gauge that reads another pressure falling than rising, by more than its class allows.
void judge_gauge_hysteresis(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Inspected& one : inspected_gauges(rule, scene)) {
    const double difference = hysteresis(one.points);
    const double limit = one.facts.gauge_class->middle_percent / 100 * one.facts.scale.span();
    if (!calculations::limits_hysteresis(*one.facts.gauge_class) || is_within(difference, limit)) {
      continue;
    }
    auto finding =
        finding_of(rule, one.gauge, "gauge-hysteresis-over", Severity::kOver, one.inspection->at);
    finding.values = {{"measured", shown_number(difference, "bar")},
                      {"limit", shown_number(limit, "bar")},
                      {"day", shown(scene.day_of(one.inspection->at))}};
    finding.entries = {one.inspection->seq};
    said.findings.push_back(std::move(finding));
  }
}

/// Fewer points than a class is compared at: `fine` for classes below 1 %, else `coarse`.
void judge_gauge_points(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Inspected& one : inspected_gauges(rule, scene)) {
    const bool fine = one.facts.gauge_class->outer_percent < 1;
    const RuleFigure& limit = *rule.figure(fine ? "fine" : "coarse");
    std::set<double> pressures;
    for (const GaugePoint& point : one.points) pressures.insert(point.reference);
    const auto count = static_cast<std::int64_t>(pressures.size());
    if (count * 1000 >= limit.value.thousandths) continue;
    auto finding = finding_of(rule, one.gauge, "gauge-points", Severity::kNote, one.inspection->at);
    finding.authority = rule.authority_of(limit);
    finding.values = {{"measured", shown_word(std::to_string(count))},
                      {"limit", shown(limit)},
                      {"day", shown(scene.day_of(one.inspection->at))}};
    finding.entries = {one.inspection->seq};
    said.findings.push_back(std::move(finding));
  }
}

/// A gauge used at more of its full scale than it is made for: less where the pressure fluctuates
/// and where its dial lacks the mark at full scale.
void judge_gauge_load(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& gauge : scene.subjects(rule, "gauge")) {
    const entries::Fields& known = scene.attributes(gauge);
    const auto range = tallies::measure(known, "range_bar", "bar");
    const auto usual = tallies::measure(known, "usual_pressure_bar", "bar");
    if (!range || !usual) continue;
    std::string name =
        tallies::word(known, "pressure_kind") == "fluctuating" ? "fluctuating" : "steady";
    if (tallies::word(known, "full_scale_mark") == "yes") name += "_marked";
    const RuleFigure& share = *rule.figure(name);
    constexpr std::int64_t kPercent = 100'000;  // in thousandths
    const std::int64_t highest = share.value.thousandths * range->value.thousandths;
    if (usual->value.thousandths * kPercent <= highest) continue;
    auto finding = finding_of(
        rule, gauge, "gauge-load-over", Severity::kOver,
        holds_since(scene, gauge,
                    {"range_bar", "usual_pressure_bar", "pressure_kind", "full_scale_mark"}));
    finding.authority = rule.authority_of(share);
    finding.values = {{"measured", shown(usual->value, "bar")},
                      {"limit", shown(base::Decimal{highest / kPercent}, "bar")},
                      {"share", shown(share)}};
    said.findings.push_back(std::move(finding));
  }
}

/// The gauge's limit over the expanded uncertainty of the reference it was compared with.
void judge_reference_ratio(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  for (const Inspected& one : inspected_gauges(rule, scene)) {
    const Subject reference{"reference", std::string(one.inspection->word("reference"))};
    const entries::Fields& known = scene.attributes(reference);
    const auto percent = number_of(known, "uncertainty_percent", "percent");
    const auto high = number_of(known, "range_bar", "bar");
    if (!percent || !high || *percent <= 0) continue;
    const double span = *high - number_of(known, "range_low_bar", "bar").value_or(0);
    const auto& by_class = *one.facts.gauge_class;
    const double tolerance =
        std::min(by_class.outer_percent, by_class.middle_percent) * one.facts.scale.span();
    const double ratio = tolerance / (*percent * span);
    constexpr double kRounding = 1e-9;
    if (ratio * 1000 >= static_cast<double>(limit.value.thousandths) - kRounding) continue;
    auto finding =
        finding_of(rule, one.gauge, "reference-ratio-over", Severity::kOver, one.inspection->at);
    finding.values = {{"measured", shown_number(ratio, "")},
                      {"limit", shown(limit.value, "")},
                      {"reference", shown_word(reference.id)},
                      {"day", shown(scene.day_of(one.inspection->at))}};
    finding.entries = {one.inspection->seq};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> gauge_kinds() {
  const std::vector<std::string_view> percent{"percent"};
  const FigureRange share{0, 100};
  const FigureRange points{1, 100, true};
  return {{"gauge-error", {}, {}, judge_gauge_error, "gauge"},
          {"gauge-hysteresis", {}, {}, judge_gauge_hysteresis, "gauge"},
          {"gauge-points",
           {{"fine", {"1"}, true, points}, {"coarse", {"1"}, true, points}},
           {},
           judge_gauge_points,
           "gauge"},
          {"gauge-load",
           {{"steady", percent, true, share},
            {"fluctuating", percent, true, share},
            {"steady_marked", percent, true, share},
            {"fluctuating_marked", percent, true, share}},
           {},
           judge_gauge_load,
           "gauge"},
          {"reference-ratio", {{"limit", {"1"}}}, {}, judge_reference_ratio, "gauge"}};
}

}  // namespace benchwarden::rules
