#include <optional>

#include "calculations/nitrogen_content.h"
#include "calculations/vapour.h"
#include "quantities/converted.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Subject;

calculations::Solvent solvent_of(const Rule& rule) {
  const RuleFigure& pressure = *rule.figure("vapour_pressure");
  return {as_number(*rule.figure("molar_mass")), as_number(*rule.figure("lower_limit")),
          quantities::converted(as_number(pressure), *quantities::find_unit(pressure.unit),
                                *quantities::find_unit("kpa"))};
}

/// What an entry says was spilled of a product that the rule speaks of, all evaporated and spread
/// in its room at 20 °C; none where volume, density or room is not known.
std::optional<calculations::Vapour> vapour_of(const Rule& rule, const Scene& scene,
                                              const entries::Fields& event) {
  const Subject product{"product", std::string(tallies::word(event, "product"))};
  const Subject room{"room", std::string(tallies::word(event, "room"))};
  const auto spilled_ml = number_of(event, "volume_ml", "ml");
  const auto density = number_of(scene.attributes(product), "density_kg_m3", "kg_m3");
  const auto volume = number_of(scene.attributes(room), "volume_m3", "m3");
  if (!spilled_ml || !density || !volume || !scene.applies(rule, product)) return std::nullopt;
  constexpr double kRoomCelsius = 20;
  const auto mass =
      quantities::kilograms_per_cubic_metre(*density) * quantities::litres(*spilled_ml / 1000);
  const auto vapour = calculations::spill_vapour(
      quantities::cubic_metres(*volume), mass, solvent_of(rule), quantities::celsius(kRoomCelsius),
      calculations::GasBase().pressure);
  return vapour ? std::optional(*vapour) : std::nullopt;
}

/// A spill whose vapour, on average of the room, is more than `share` of the lower explosive limit.
/// Until what was done about it is recorded.
void judge_spill_vapour(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& share = *rule.figure("share");
  for (const auto& [id, records] : scene.state().records().of_class("event")) {
    const Subject event{"event", id};
    const tallies::Record* last = scene.last(event, "event");
    if (last == nullptr || is_closed(scene, event, *last, "action-closed")) continue;
    const auto vapour = vapour_of(rule, scene, last->fields());
    constexpr double kPercent = 100;
    if (!vapour || vapour->share_of_lower_limit * kPercent <= as_number(share)) continue;
    auto finding =
        finding_of(rule, event, "spill-vapour-over", findings::Severity::kOver, last->at);
    finding.values = {
        {"measured", shown_number(vapour->share_of_lower_limit * kPercent, "percent")},
        {"limit", shown(share)},
        {"concentration", shown_number(vapour->concentration_percent, "percent")}};
    finding.entries = {last->seq};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> spill_kinds() {
  return {{"spill-vapour",
           {{"molar_mass", {"g_mol"}},
            {"lower_limit", {"percent"}, true, FigureRange{0, 100}},
            {"vapour_pressure", {"mm_hg", "kpa"}},
            {"share", {"percent"}, true, FigureRange{0, 100}}},
           {},
           judge_spill_vapour,
           "product"}};
}

}  // namespace benchwarden::rules
