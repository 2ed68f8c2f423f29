#include "rules/gas_loss.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;
using findings::Subject;

/// Nitrogen that left a cylinder beyond the logged use and the uncertainty of the readings, at its
/// last check. Where that cannot be told, nothing is said.
void judge_gas_loss(const Rule& rule, const Scene& scene, Judgement& said) {
  for (const Subject& cylinder : scene.subjects(rule, "cylinder")) {
    if (tallies::word(scene.attributes(cylinder), "gas") != "nitrogen") continue;
    const ToldOf checks = checks_by_filling(scene, cylinder).front();
    const auto latest = loss_found_at(rule, scene, cylinder, checks, 0);
    if (!latest) continue;
    std::size_t first = 0;
    while (loss_found_at(rule, scene, cylinder, checks, first + 1)) ++first;
    const tallies::Record& last = *checks.front();
    auto finding = finding_of(rule, cylinder, "gas-loss-over", Severity::kOver, checks[first]->at);
    finding.values = {{"measured", shown_number(latest->loss.si(), "kg")},
                      {"limit", shown_number(latest->expanded_uncertainty.si(), "kg")},
                      {"start", shown(scene.day_of(latest->since))},
                      {"day", shown(scene.day_of(last.at))}};
    finding.entries = ends_of(latest->since_entry, last.seq);
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
           judge_gas_loss,
           "cylinder"}};
}

}  // namespace benchwarden::rules
