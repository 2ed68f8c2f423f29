#include "rules/gauge_facts.h"

#include <cmath>
#include <string>

#include "calculations/gauge_decision.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

/// Codes of the register have no points: "en-1-6" is the class "en-1.6".
const calculations::GaugeClass* class_of(std::string_view code) {
  std::string name(code);
  const std::size_t point = name.find('-', name.find('-') + 1);
  if (name.starts_with("en-") && point != std::string::npos) name[point] = '.';
  return calculations::find_gauge_class(name);
}

}  // namespace

std::optional<GaugeFacts> gauge_of(const entries::Fields& gauge) {
  const calculations::GaugeClass* found = class_of(tallies::word(gauge, "accuracy_class"));
  const auto high = number_of(gauge, "range_bar", "bar");
  if (found == nullptr || !high) return std::nullopt;
  const GaugeFacts facts{found, {number_of(gauge, "range_low_bar", "bar").value_or(0), *high}};
  return facts.scale.span() > 0 ? std::optional(facts) : std::nullopt;
}

std::vector<GaugePoint> points_of(const tallies::Record& inspection) {
  std::vector<GaugePoint> points;
  const entries::Fields fields = inspection.fields();
  const auto* list = entries::find_field_as<entries::List>(fields, "points");
  if (list == nullptr) return points;
  for (const entries::Record& row : list->rows) {
    const auto reference = number_of(row, "nominal_bar", "bar");
    const auto found = number_of(row, "as_found_bar", "bar");
    if (reference && found) {
      points.push_back({*reference, *found, number_of(row, "as_left_bar", "bar")});
    }
  }
  return points;
}

bool is_within(double error, double limit) {
  const auto decision = calculations::decide(calculations::DecisionRule::kSimple, error, limit, 0);
  return decision && *decision == calculations::Decision::kPass;
}

std::optional<WorstPoint> worst_point(const GaugeFacts& gauge,
                                      const std::vector<GaugePoint>& points) {
  std::optional<WorstPoint> worst;
  for (const GaugePoint& point : points) {
    const auto limit = calculations::error_limit(*gauge.gauge_class, gauge.scale, point.reference);
    if (!limit) continue;
    const WorstPoint one{point.as_found - point.reference, *limit, point.reference};
    const bool worse =
        !worst || std::abs(one.error) / one.limit > std::abs(worst->error) / worst->limit;
    if (worse) worst = one;
  }
  return worst;
}

}  // namespace benchwarden::rules
