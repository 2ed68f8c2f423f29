#include <algorithm>
#include <cmath>

#include "calculations/calculator_groups.h"
#include "calculations/due_date.h"
#include "calculations/gauge_class.h"
#include "calculations/gauge_decision.h"
#include "calculations/gauge_drift.h"
#include "calculations/statistics.h"

namespace benchwarden::calculations {
namespace {

const GaugeClass& class_of(const Inputs& in, std::string_view name) {
  const GaugeClass* found = find_gauge_class(in.code(name));
  assert(found != nullptr);  // the rule lets no other code through
  return *found;
}

GaugeScale scale_of(const Inputs& in) {
  return {in.number("scale_low_bar"), in.number("scale_high_bar")};
}

DecisionRule rule_of(const Inputs& in) {
  const std::string& code = in.code("decision_rule");
  if (code == "guarded") return DecisionRule::kGuarded;
  return code == "four-way" ? DecisionRule::kFourWay : DecisionRule::kSimple;
}

std::string decision_code(Decision decision) {
  switch (decision) {
    case Decision::kPass:
      return "within-class";
    case Decision::kConditionalPass:
      return "within-class-inside-guard-band";
    case Decision::kNotAccepted:
      return "not-accepted-inside-guard-band";
    case Decision::kConditionalFail:
      return "outside-class-inside-guard-band";
    case Decision::kFail:
      break;
  }
  return "outside-class";
}

/// One run over the scale: readings against the reference at each point.
struct Run {
  std::vector<double> errors;
  std::vector<double> limits;
  std::vector<double> probabilities;
  Decision decision = Decision::kPass;  ///< the worst of all points
  double largest = 0;
};

Outcome<Run> judge(const Inputs& in, std::string_view readings_name) {
  const std::vector<double>& reference = in.list("reference_bar");
  const std::vector<double>& readings = in.list(readings_name);
  const auto rows = static_cast<double>(reference.size());
  if (readings.size() != reference.size()) {
    return Refusal{RefusalCode::kUnequalLists, std::string(readings_name),
                   static_cast<double>(readings.size()), rows, rows};
  }
  Run run;
  const double expanded = in.number("expanded_uncertainty_bar");
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto limit = error_limit(class_of(in, "gauge_class"), scale_of(in), reference[i]);
    if (!limit) return limit.error();
    const double error = readings[i] - reference[i];
    const auto decision = decide(rule_of(in), error, *limit, expanded);
    if (!decision) return decision.error();
    run.decision = std::max(run.decision, *decision);
    run.largest = std::max(run.largest, std::abs(error));
    run.errors.push_back(error);
    run.limits.push_back(*limit);
    if (expanded <= 0) continue;
    const auto probability = conformance_probability(error, *limit, expanded / kCoverageFactor);
    if (!probability) return probability.error();
    run.probabilities.push_back(*probability);
  }
  return run;
}

/// Adds the largest difference between rising and falling, and for a class that limits it, whether
/// it keeps to that at every point.
void add_hysteresis(Values& values, const Inputs& in, const std::vector<double>& limits) {
  const std::vector<double>& rising = in.list("as_found_bar");
  const std::vector<double>& falling = in.list("as_found_falling_bar");
  double largest = 0;
  Decision worst = Decision::kPass;
  for (std::size_t i = 0; i < rising.size(); ++i) {
    const double difference = std::abs(rising[i] - falling[i]);
    largest = std::max(largest, difference);
    const auto decision = decide(DecisionRule::kSimple, difference, limits[i], 0);
    if (decision) worst = std::max(worst, *decision);
  }
  values.push_back({"hysteresis_bar", largest});
  if (!limits_hysteresis(class_of(in, "gauge_class"))) return;
  values.push_back({"hysteresis_decision", decision_code(worst)});
}

void add_points(Values& values, const Inputs& in) {
  const unsigned usual = usual_points(class_of(in, "gauge_class"));
  if (usual == 0) return;
  const bool fewer = in.list("reference_bar").size() < usual;
  values.push_back({"points", fewer ? "fewer-than-" + std::to_string(usual) : "usual"});
}

void add_run(Values& values, const std::string& name, const Run& run) {
  values.push_back({name + "_error_bar", run.errors});
  values.push_back({name + "_largest_error_bar", run.largest});
  if (!run.probabilities.empty()) {
    values.push_back({name + "_conformance_probability", run.probabilities});
  }
  values.push_back({name + "_decision", decision_code(run.decision)});
}

Outcome<Values> check(const Inputs& in) {
  if (rule_of(in) != DecisionRule::kSimple && in.number("expanded_uncertainty_bar") <= 0) {
    return Refusal{RefusalCode::kMissing, "expanded_uncertainty_bar"};  // no band without it
  }
  const auto found = judge(in, "as_found_bar");
  if (!found) return found.error();
  Values values{{"limit_bar", found->limits}};
  add_points(values, in);
  add_run(values, "as_found", *found);
  if (in.has("as_found_falling_bar")) {
    const auto falling = judge(in, "as_found_falling_bar");
    if (!falling) return falling.error();
    add_run(values, "as_found_falling", *falling);
    add_hysteresis(values, in, found->limits);
  }
  if (in.has("as_left_bar")) {
    const auto left = judge(in, "as_left_bar");
    if (!left) return left.error();
    add_run(values, "as_left", *left);
  }
  return values;
}

Outcome<Values> reference(const Inputs& in) {
  const GaugeScale reference_scale{in.number("reference_scale_low_bar"),
                                   in.number("reference_scale_high_bar")};
  if (reference_scale.span() <= 0) {
    return Refusal{RefusalCode::kNoSolution, "reference_scale_high_bar"};
  }
  const auto ratio = reference_ratio(class_of(in, "gauge_class"), scale_of(in),
                                     class_of(in, "reference_class"), reference_scale);
  if (!ratio) return ratio.error();
  return Values{{"reference_ratio", *ratio}};
}

Outcome<Values> working_range(const Inputs& in) {
  const bool fluctuating = in.code("load") == "fluctuating";
  const double share = working_share(fluctuating ? Load::kFluctuating : Load::kSteady);
  const double highest = share * in.number("scale_high_bar");
  const double working = in.number("working_pressure_bar");
  constexpr double kRounded = 1 + 1e-9;  // 750 psi are three quarters of 1000 psi in bar as well
  constexpr double kPercent = 100;
  return Values{
      {"share_percent", share * kPercent},
      {"highest_working_bar", highest},
      {"working_range", std::string(working <= highest * kRounded ? "within" : "beyond")}};
}

void add_year(Values& values, const std::string& name, std::optional<double> years,
              std::optional<base::CivilDate> first) {
  if (!years) return;
  values.push_back({name + "_years", *years});
  constexpr double kDaysPerYear = 365.25;
  constexpr double kYearsMax = 10000;
  const bool near = *years >= 0 && *years < kYearsMax;  // false for what is no number as well
  if (!first || !near) return;
  const auto day = days_after(*first, static_cast<int>(std::floor(*years * kDaysPerYear)));
  if (day) values.push_back({name + "_date", *day});
}

Outcome<Values> drift(const Inputs& in) {
  const auto found = gauge_drift(in.list("years"), in.list("error_bar"), in.number("limit_bar"));
  if (!found) return found.error();
  Values values{{"intercept_bar", found->line.intercept},
                {"slope_bar_per_year", found->line.slope},
                {"residual_sd_bar", found->line.residual_sd},
                {"degrees_of_freedom", found->line.degrees_of_freedom()},
                {"observed_years", found->observed_years}};
  add_year(values, "earliest", found->earliest, in.maybe_date("first_date"));
  add_year(values, "leaves", found->leaves, in.maybe_date("first_date"));
  if (found->leaves) {
    values.push_back({"reach", std::string(found->far_ahead ? "far-ahead" : "near")});
  }
  return values;
}

std::vector<std::string_view> class_codes() {
  std::vector<std::string_view> codes;
  for (const GaugeClass& one : gauge_classes()) codes.push_back(one.code);
  return codes;
}
InputRule points(std::string_view name) { return list_input(name, -1, 2000, 1, 50); }

}  // namespace

std::vector<Calculator> gauge_calculators() {
  const InputRule gauge_class = code_input("gauge_class", class_codes());
  const InputRule low = number_input("scale_low_bar", -1, 1600);
  const InputRule high = number_input("scale_high_bar", 0.01, 1600);
  return {
      {"gauge-check",
       {gauge_class, low, high, points("reference_bar"), points("as_found_bar"),
        optional(points("as_found_falling_bar")), optional(points("as_left_bar")),
        number_input("expanded_uncertainty_bar", 0, 100),
        code_input("decision_rule", {"simple", "guarded", "four-way"})},
       check},
      {"gauge-reference",
       {gauge_class, low, high, code_input("reference_class", class_codes()),
        number_input("reference_scale_low_bar", -1, 1600),
        number_input("reference_scale_high_bar", 0.01, 1600)},
       reference},
      {"gauge-working-range",
       {high, code_input("load", {"steady", "fluctuating"}),
        number_input("working_pressure_bar", 0, 1600)},
       working_range},
      {"gauge-drift",
       {list_input("years", 0, 100, 4, 200), list_input("error_bar", -1600, 1600, 4, 200),
        number_input("limit_bar", 0.0001, 1600), optional(date_input("first_date"))},
       drift},
  };
}

}  // namespace benchwarden::calculations
