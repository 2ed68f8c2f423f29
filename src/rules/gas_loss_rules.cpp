#include <algorithm>
#include <optional>

#include "calculations/nitrogen_content.h"
#include "calculations/nitrogen_loss.h"
#include "rules/gauge_facts.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using calculations::CylinderReading;
using calculations::NitrogenLoss;
using findings::Judgement;
using findings::Severity;
using findings::Subject;
using quantities::Mass;
using tallies::Record;

double number(const Rule& rule, std::string_view name) {
  const RuleFigure* figure = rule.figure(name);
  return figure == nullptr ? 0 : static_cast<double>(figure->value.thousandths) / 1000;
}

quantities::AbsolutePressure atmosphere() { return calculations::GasBase().pressure; }

/// Of the gauge the entry names, else the rule's usual one.
quantities::AbsolutePressure reading_uncertainty(const Rule& rule, const Scene& scene,
                                                 const entries::Fields& check) {
  const std::string gauge(tallies::word(check, "gauge"));
  const auto known = gauge_of(scene.attributes({"gauge", gauge}));
  const double percent = known ? known->gauge_class->outer_percent : number(rule, "gauge_class");
  const double span = known ? known->scale.span() : number(rule, "gauge_span");
  return calculations::gauge_reading_uncertainty(percent, quantities::bar_gauge(span),
                                                 quantities::bar_gauge(number(rule, "resolution")));
}

/// None without a temperature: then nothing can be told.
std::optional<CylinderReading> reading_of(const Rule& rule, const Scene& scene,
                                          const Record& check) {
  const entries::Fields fields = check.fields();
  const auto pressure = number_of(fields, "gauge_pressure_bar", "bar");
  const auto temperature = number_of(fields, "ambient_temperature_c", "c");
  if (!pressure || !temperature) return std::nullopt;
  return CylinderReading{absolute(quantities::bar_gauge(*pressure), atmosphere()),
                         quantities::celsius(*temperature),
                         reading_uncertainty(rule, scene, fields),
                         quantities::Temperature(number(rule, "temperature_uncertainty"))};
}

/// What one entry of use took, at 20 °C; none where it does not say to what pressure or how large
/// the gas space was.
std::optional<Mass> use_of(const Record& use) {
  const entries::Fields fields = use.fields();
  const auto units = number_of(fields, "unit_count", "1");
  const auto pressure = number_of(fields, "charge_pressure_bar", "bar");
  const auto space_ml = number_of(fields, "unit_gas_volume_ml", "ml");
  if (!units || !pressure || !space_ml) return std::nullopt;
  constexpr double kRoomCelsius = 20;
  const auto space = quantities::litres(*space_ml / 1000);
  const auto room = quantities::celsius(kRoomCelsius);
  const auto charged = calculations::nitrogen_mass(
      space, absolute(quantities::bar_gauge(*pressure), atmosphere()), room);
  const auto before = calculations::nitrogen_mass(space, atmosphere(), room);
  if (!charged || !before) return std::nullopt;
  return (*charged - *before) * *units;
}

/// Use that was logged in (from, until], with the rule's allowance for hoses and blowing off.
std::optional<Mass> logged_use(const Rule& rule, const Scene& scene, const Subject& cylinder,
                               base::Instant from, base::Instant until) {
  Mass sum;
  for (const Record* use : told_of(scene, cylinder, {"gas-use"})) {
    if (use->at <= from || use->at > until) continue;
    const auto one = use_of(*use);
    if (!one) return std::nullopt;
    sum = sum + *one;
  }
  constexpr double kPercent = 100;
  return sum * (1 + number(rule, "use_allowance") / kPercent);
}

/// The loss between two checks where it is beyond the uncertainty.
std::optional<NitrogenLoss> loss_between(const Rule& rule, const Scene& scene,
                                         const Subject& cylinder, const Record& first,
                                         const Record& second) {
  const auto capacity = number_of(scene.attributes(cylinder), "water_capacity_l", "l");
  const auto before = reading_of(rule, scene, first);
  const auto after = reading_of(rule, scene, second);
  const auto used = logged_use(rule, scene, cylinder, first.at, second.at);
  if (!capacity || !before || !after || !used) return std::nullopt;
  constexpr double kPercent = 100;
  const auto loss = calculations::nitrogen_loss(quantities::litres(*capacity),
                                                number(rule, "capacity_uncertainty") / kPercent,
                                                *before, *after, *used, Mass(0));
  if (!loss || loss->verdict != calculations::LossVerdict::kLossBeyondUncertainty) {
    return std::nullopt;
  }
  return *loss;
}

/// The checks since the cylinder was last filled, exchanged or returned, the newest first.
ToldOf checks_of_filling(const Scene& scene, const Subject& cylinder) {
  ToldOf checks;
  for (const Record* record : told_of(scene, cylinder, {"cylinder-check", "cylinder-change"})) {
    if (record->kind == "cylinder-check") {
      checks.push_back(record);
      continue;
    }
    const entries::Fields change = record->fields();
    const std::string_view word = tallies::word(change, "change");
    const bool filled = entries::find_field(change, "filled_on") != nullptr;
    if (filled || word == "refilled" || word == "returned") break;
  }
  return checks;
}

struct Found {
  const Record* first = nullptr;
  NitrogenLoss loss;
};

/// The loss at one check: against the check before it, else against the oldest of the window.
std::optional<Found> loss_at(const Rule& rule, const Scene& scene, const Subject& cylinder,
                             const ToldOf& checks, std::size_t at) {
  if (at + 1 >= checks.size()) return std::nullopt;
  const auto try_from = [&](std::size_t from) -> std::optional<Found> {
    const auto loss = loss_between(rule, scene, cylinder, *checks[from], *checks[at]);
    return loss ? std::optional(Found{checks[from], *loss}) : std::nullopt;
  };
  if (auto found = try_from(at + 1)) return found;
  const auto days = static_cast<int>(number(rule, "window"));
  std::size_t oldest = at + 1;
  for (; oldest + 1 < checks.size(); ++oldest) {
    const base::CivilDate day = scene.day_of(checks[oldest + 1]->at);
    if (base::days_between(day, scene.day_of(checks[at]->at)) > days) break;
  }
  return oldest == at + 1 ? std::nullopt : try_from(oldest);
}

/// Nitrogen that left a cylinder beyond the logged use and the uncertainty of the readings, at its
/// last check. Where that cannot be told, nothing is said.
void judge_gas_loss(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    if (tallies::word(scene.attributes(cylinder), "gas") != "nitrogen") continue;
    const ToldOf checks = checks_of_filling(scene, cylinder);
    const auto latest = loss_at(rule, scene, cylinder, checks, 0);
    if (!latest) continue;
    std::size_t first = 0;
    while (loss_at(rule, scene, cylinder, checks, first + 1)) ++first;
    auto finding = finding_of(rule, cylinder, "gas-loss-over", Severity::kOver, checks[first]->at);
    finding.values = {{"measured", shown_number(latest->loss.loss.si(), "kg")},
                      {"limit", shown_number(latest->loss.expanded_uncertainty.si(), "kg")},
                      {"start", shown(scene.day_of(latest->first->at))},
                      {"day", shown(scene.day_of(checks.front()->at))}};
    finding.entries = ends_of(*latest->first, *checks.front());
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> gas_loss_kinds() {
  return {{"gas-loss",
           {{"gauge_class", {"percent"}},
            {"gauge_span", {"bar"}},
            {"resolution", {"bar"}},
            {"temperature_uncertainty", {"k"}},
            {"capacity_uncertainty", {"percent"}},
            {"use_allowance", {"percent"}},
            {"window", {"d"}}},
           {},
           judge_gas_loss}};
}

}  // namespace benchwarden::rules
