#include <algorithm>
#include <utility>

#include "rules/gas_loss.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;
using findings::Subject;
using findings::Untold;
using tallies::Record;

/// What the checks of a filling say together, places counted from the newest.
struct Standing {
  std::optional<findings::GasLoss> loss;  ///< the last that was found and that no check denies
  std::size_t last = 0;                   ///< the check that found it
  std::size_t first = 0;                  ///< the check that first did, none between denying it
  std::size_t untold = 0;                 ///< how many of the newest checks in a row cannot tell
  LossAt newest;
};

/// A check that cannot tell denies nothing: what was found before it stands.
Standing standing_of(GasLosses& losses, const ToldOf& checks) {
  Standing standing;
  for (std::size_t at = 0; at < checks.size(); ++at) {
    const LossAt told = losses.at(checks, at);
    if (at == 0) standing.newest = told;
    if (told.beyond) {
      if (!standing.loss) standing.last = at;
      if (!standing.loss) standing.loss = told.beyond;
      standing.first = at;
    } else if (!told.untold || *told.untold == Untold::kFirstOfFilling) {
      break;
    } else if (standing.untold == at) {
      standing.untold = at + 1;
    }
  }
  return standing;
}

void say_loss(const Rule& rule, const Scene& scene, const Subject& cylinder, const ToldOf& checks,
              const Standing& standing, Judgement& said) {
  const Record& last = *checks[standing.last];
  auto finding =
      finding_of(rule, cylinder, "gas-loss-over", Severity::kOver, checks[standing.first]->at);
  finding.values = {{"measured", shown_number(standing.loss->loss.si(), "kg")},
                    {"limit", shown_number(standing.loss->expanded_uncertainty.si(), "kg")},
                    {"start", shown(scene.day_of(standing.loss->since))},
                    {"day", shown(scene.day_of(last.at))}};
  finding.entries = ends_of(standing.loss->since_entry, last.seq);
  said.findings.push_back(std::move(finding));
}

findings::Shown pressure_read(const Record& check) {
  const auto pressure = check.measure("gauge_pressure_bar", "bar");
  return pressure ? shown(pressure->value, "bar") : shown_word("-");
}

std::string_view sentence_of(Untold reason) {
  switch (reason) {
    case Untold::kUseNotTold:
      return "gas-loss-use-not-told";
    case Untold::kNoTemperature:
      return "gas-loss-no-temperature";
    case Untold::kNoWaterCapacity:
      return "gas-loss-no-water-capacity";
    default:
      return "gas-loss-out-of-range";  // gas and pressure are known of every check that is judged
  }
}

/// That the last check cannot tell, why, and what was read.
void say_untold(const Rule& rule, const Scene& scene, const Subject& cylinder, const ToldOf& checks,
                const Standing& standing, GasLosses& losses, Judgement& said) {
  const Record& last = *checks.front();
  const Record& from = standing.newest.compared == nullptr ? *checks[1] : *standing.newest.compared;
  auto finding = finding_of(rule, cylinder, sentence_of(*standing.newest.untold), Severity::kNote,
                            checks[standing.untold - 1]->at);
  finding.values = {{"measured", pressure_read(last)},
                    {"before", pressure_read(from)},
                    {"start", shown(scene.day_of(from.at))},
                    {"day", shown(scene.day_of(last.at))}};
  if (*standing.newest.untold == Untold::kUseNotTold) {
    const int uses = losses.untold_uses(from.at, last.at);
    finding.values.emplace_back("count", shown(base::Decimal{std::int64_t{1000} * uses}, "1"));
  }
  finding.entries = ends_of(from, last);
  said.findings.push_back(std::move(finding));
}

/// Nitrogen that left a cylinder beyond the logged use and the uncertainty of the readings, until a
/// check that can tell says otherwise; and that the last one cannot tell.
void judge_gas_loss(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    if (tallies::word(scene.attributes(cylinder), "gas") != "nitrogen") continue;
    const ToldOf checks = checks_since_filling(scene, cylinder);
    GasLosses losses(rule, scene, cylinder);
    const Standing standing = standing_of(losses, checks);
    if (standing.loss) say_loss(rule, scene, cylinder, checks, standing, said);
    if (standing.untold > 0) say_untold(rule, scene, cylinder, checks, standing, losses, said);
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
           judge_gas_loss,
           "cylinder"}};
}

}  // namespace benchwarden::rules
