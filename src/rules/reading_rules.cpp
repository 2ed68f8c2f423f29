#include <cmath>
#include <limits>
#include <utility>

#include "calculations/reconcile.h"
#include "rules/contents.h"
#include "rules/limits.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"

namespace benchwarden::rules {
namespace {

using calculations::UncertainVolume;

/// Every volume that went in or out since the container was last empty, up to the reading, in L.
std::vector<double> logged_volumes(const tallies::Timeline& timeline,
                                   const tallies::Reading& reading) {
  constexpr double kMicrolitres = 1e6;
  std::vector<double> volumes;
  const auto& events = timeline.events();
  for (auto event = events.rbegin(); event != events.rend(); ++event) {
    const bool later = event->at > reading.at;
    if (later || (event->at == reading.at && event->seq >= reading.seq)) continue;
    if (!event->acts) continue;  // struck out, or corrected into another container
    if (event->kind == tallies::EventKind::kEmptied) break;
    if (event->kind >= tallies::EventKind::kRead) continue;
    const bool out =
        event->kind == tallies::EventKind::kMovedOut || event->kind == tallies::EventKind::kTaken;
    const double volume = static_cast<double>(event->amount) / kMicrolitres;
    volumes.push_back(out ? -volume : volume);
  }
  return volumes;
}

quantities::Volume volume_of_figure(const Rule& rule, std::string_view figure) {
  const quantities::Quantity given{rule.figure(figure)->value,
                                   quantities::find_unit(rule.figure(figure)->unit)};
  constexpr double kThousandths = 1e3;
  const auto litres = quantities::convert(given, *quantities::find_unit("l"));
  return quantities::litres(litres ? static_cast<double>(litres->value.thousandths) / kThousandths
                                   : 0);
}

double litres_in(std::int64_t microlitres) { return static_cast<double>(microlitres) / 1e6; }

UncertainVolume logged(const Rule& rule, const std::vector<double>& volumes) {
  constexpr double kThousandthsOfAPercent = 1e5;
  const double share = static_cast<double>(rule.figure("common")->value.thousandths);
  return calculations::logged_sum(volumes, quantities::litres_of(volume_of_figure(rule, "each")),
                                  share / kThousandthsOfAPercent);
}

/// The reading against the log as it was then.
calculations::Outcome<calculations::Reconciled> compared(const Rule& rule,
                                                         const tallies::Timeline& timeline,
                                                         const tallies::Reading& reading) {
  UncertainVolume log = logged(rule, logged_volumes(timeline, reading));
  log.volume = quantities::litres(litres_in(reading.logged));
  const UncertainVolume read{quantities::litres(litres_in(reading.reading)),
                             volume_of_figure(rule, "reading")};
  return calculations::reconcile(log, read, volume_of_figure(rule, "of_interest"));
}

/// The last reading of a container against its log, each with its uncertainty: a difference beyond
/// both, and large enough to be of interest, is of something poured, taken or lost that the log
/// does not hold. Liquids only.
void judge_log_difference(const Rule& rule, const Scene& scene, findings::Judgement& said) {
  for (const Holding& holding : holdings(rule, scene, Retired::kLeftOut)) {
    if (holding.stream.counted_by != tallies::CountedBy::kVolume) continue;
    const auto& timeline = scene.state().timeline(holding.container.id);
    const auto reading = timeline.last_reading(base::kEarliest, just_after(scene.now()));
    if (!reading) continue;
    const auto found = compared(rule, timeline, *reading);
    if (!found || found->agreement != calculations::Agreement::kBeyondUncertainty) continue;
    const double least = volume_of_figure(rule, "of_interest").si();
    if (std::abs(found->difference.si()) < least) continue;
    auto finding = finding_of(rule, holding.container, "log-difference-over", weight(rule));
    finding.since = reading->at;
    finding.entries = {reading->seq};
    finding.values = {
        {"measured", shown_amount(reading->reading - reading->logged, true)},
        {"limit", shown_number(quantities::litres_of(found->expanded_uncertainty), "l")},
        {"reading", shown_amount(reading->reading, true)},
        {"logged", shown_amount(reading->logged, true)},
        {"day", shown(scene.day_of(reading->at))}};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> reading_kinds() {
  return {{"log-difference",
           {{"each", {"ml", "l"}},
            {"common", {"percent"}},
            {"reading", {"ml", "l"}},
            {"of_interest", {"ml", "l"}}},
           {weighs()},
           judge_log_difference,
           "container"}};
}

}  // namespace benchwarden::rules
