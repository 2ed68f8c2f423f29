#include <algorithm>
#include <optional>

#include "calculations/nitrogen_content.h"
#include "calculations/oxygen.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;
using findings::Subject;

double number(const RuleFigure& figure) {
  return static_cast<double>(figure.value.thousandths) / 1000;
}

/// What a cylinder lets out at 15 °C and 1.01325 bar: as its label says, else what it holds at its
/// working pressure; none where neither is known.
std::optional<double> content_m3(const entries::Fields& cylinder) {
  if (const auto label = number_of(cylinder, "content_m3", "m3")) return label;
  const auto capacity = number_of(cylinder, "water_capacity_l", "l");
  const auto pressure = number_of(cylinder, "working_pressure_bar", "bar");
  if (!capacity || !pressure) return std::nullopt;
  const calculations::GasBase base;
  const auto full = absolute(quantities::bar_gauge(*pressure), base.pressure);
  const auto mass =
      calculations::nitrogen_mass(quantities::litres(*capacity), full, base.temperature);
  if (!mass) return std::nullopt;
  const auto volume = calculations::nitrogen_volume(*mass, base);
  if (!volume) return std::nullopt;
  return volume->si();
}

/// The nitrogen of a room, and since when it and the room are as they are.
struct RoomGas {
  double gas_m3 = 0;
  base::Instant since;
};

bool stands_in(const Scene& scene, const Subject& cylinder, const std::string& room) {
  const entries::Fields& known = scene.attributes(cylinder);
  if (tallies::word(known, "room") != room || tallies::word(known, "gas") != "nitrogen") {
    return false;
  }
  const tallies::Record* change = scene.last(cylinder, "cylinder-change");
  return change == nullptr || tallies::word(change->fields(), "change") != "returned";
}

RoomGas gas_of(const Rule& rule, const Scene& scene, const Subject& room) {
  RoomGas found{0, holds_since(scene, room, {"volume_m3"})};
  const bool largest = rule.setting("release") == "largest";
  for (const auto& [id, thing] : scene.state().things("cylinder")) {
    const Subject cylinder{"cylinder", id};
    if (thing.retired || !stands_in(scene, cylinder, room.id)) continue;
    const auto content = content_m3(thing.attributes);
    if (!content) continue;
    found.gas_m3 = largest ? std::max(found.gas_m3, *content) : found.gas_m3 + *content;
    found.since =
        std::max(found.since,
                 holds_since(scene, cylinder,
                             {"room", "content_m3", "water_capacity_l", "working_pressure_bar"}));
  }
  return found;
}

/// The oxygen left in a closed room when its nitrogen cylinders empty into it: all of them, or the
/// largest.
void judge_room_oxygen(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  const RuleFigure& baseline = *rule.figure("baseline");
  for (const Subject& room : scene.subjects(rule, "room")) {
    const auto volume = number_of(scene.attributes(room), "volume_m3", "m3");
    if (!volume) continue;
    const RoomGas gas = gas_of(rule, scene, room);
    const auto oxygen = calculations::oxygen_after_release(
        quantities::cubic_metres(*volume), quantities::cubic_metres(gas.gas_m3), number(baseline));
    constexpr double kRounding = 1e-9;
    if (!oxygen || *oxygen >= number(limit) - kRounding) continue;
    auto finding = finding_of(rule, room, "room-oxygen-over", Severity::kOver, gas.since);
    finding.values = {{"measured", shown_number(*oxygen, "percent")},
                      {"limit", shown(limit)},
                      {"baseline", shown(baseline)},
                      {"gas", shown_number(gas.gas_m3, "m3")},
                      {"volume", shown_number(*volume, "m3")}};
    said.findings.push_back(std::move(finding));
  }
}

/// A number of the register beyond a figure: what brings a law into force, or a rating.
void judge_attribute_over(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  const bool noted = rule.setting("weight") == "note";
  for (const Subject& thing : subjects_of(rule, scene)) {
    const auto value = tallies::measure(scene.attributes(thing), rule.setting("field"), limit.unit);
    if (!value || value->value <= limit.value) continue;
    auto finding =
        finding_of(rule, thing, "attribute-over", noted ? Severity::kNote : Severity::kOver,
                   holds_since(scene, thing, {rule.setting("field")}));
    finding.values = {{"item", shown_word(rule.setting("item"))},
                      {"measured", shown(value->value, limit.unit)},
                      {"limit", shown(limit)}};
    said.findings.push_back(std::move(finding));
  }
}

/// Pressure times volume of a vessel at the limit or above: exempt is what is less.
void judge_pressure_volume(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  for (const Subject& thing : subjects_of(rule, scene)) {
    const entries::Fields& known = scene.attributes(thing);
    const auto pressure = tallies::measure(known, "working_pressure_bar", "bar");
    const auto volume = tallies::measure(known, "volume_l", "l");
    if (!pressure || !volume) continue;
    const std::int64_t millionths = pressure->value.thousandths * volume->value.thousandths;
    if (millionths < limit.value.thousandths * 1000) continue;  // before anything is rounded
    const std::int64_t product = base::divide_round_half_away(millionths, 1000);
    auto finding = finding_of(rule, thing, "pressure-volume-over", Severity::kNote,
                              holds_since(scene, thing, {"working_pressure_bar", "volume_l"}));
    finding.values = {{"measured", shown(base::Decimal{product}, limit.unit)},
                      {"limit", shown(limit)},
                      {"pressure", shown(pressure->value, "bar")},
                      {"volume", shown(volume->value, "l")}};
    said.findings.push_back(std::move(finding));
  }
}

}  // namespace

std::vector<RuleKind> room_kinds() {
  return {{"room-oxygen",
           {{"limit", {"percent"}, true, FigureRange{0, 100}},
            {"baseline", {"percent"}, true, FigureRange{0, 100}}},
           {{"release", {"all", "largest"}}},
           judge_room_oxygen,
           "room"},
          {"attribute-over",
           {{"limit", {"bar", "l", "m3", "c", "mm", "percent", "kg"}}},
           {{"about", {}, true, Word::kThing},
            {"field", {}, true, Word::kAttribute},
            {"item", {}},
            {"weight", {"note", "over"}}},
           judge_attribute_over},
          {"pressure-volume",
           {{"limit", {"bar_l"}}},
           {{"about", {}, true, Word::kThing}},
           judge_pressure_volume}};
}

}  // namespace benchwarden::rules
