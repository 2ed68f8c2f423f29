#include <algorithm>
#include <functional>
#include <optional>

#include "calculations/oxygen.h"
#include "rules/limits.h"
#include "rules/room_gas.h"
#include "rules/rule_kind.h"
#include "rules/showing.h"
#include "rules/told.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using findings::Judgement;
using findings::Severity;
using findings::Subject;

/// The oxygen left in a room of this volume by its rule; none where it is in order or unknown.
std::optional<double> too_little_oxygen(const Rule& rule, const entries::Fields& room,
                                        double gas_m3) {
  constexpr double kRounding = 1e-9;
  const auto volume = number_of(room, "volume_m3", "m3");
  if (!volume) return std::nullopt;
  const auto oxygen = calculations::oxygen_after_release(quantities::cubic_metres(*volume),
                                                         quantities::cubic_metres(gas_m3),
                                                         as_number(*rule.figure("baseline")));
  if (!oxygen || *oxygen >= as_number(*rule.figure("limit")) - kRounding) return std::nullopt;
  return *oxygen;
}

/// Since when it has been too little without a break, by the room and its cylinders as they were.
base::Instant too_little_since(const Rule& rule, const Scene& scene, const Subject& room,
                               Release release) {
  const tallies::Register& under_care = scene.state().under_care();
  const RoomGasCourse gas(scene, room, release);
  auto turns = gas.turns();
  const auto said = under_care.said_at(room.thing_class, room.id);
  turns.insert(turns.end(), said.begin(), said.end());
  std::sort(turns.begin(), turns.end(), std::greater<>());
  base::Instant since = scene.now();
  for (const base::Instant turn : turns) {
    if (turn > scene.now()) continue;
    const auto then = under_care.thing_at(room.thing_class, room.id, turn);
    if (!then || !too_little_oxygen(rule, then->attributes, gas.at(turn))) break;
    since = turn;
  }
  return since;
}

/// The oxygen left in a closed room when its nitrogen cylinders empty into it: all of them, or the
/// largest.
void judge_room_oxygen(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  const Release release = rule.setting("release") == "largest" ? Release::kLargest : Release::kAll;
  for (const Subject& room : scene.subjects(rule, "room")) {
    const entries::Fields& known = scene.attributes(room);
    const double gas = room_gas(scene, room, release);
    const auto oxygen = too_little_oxygen(rule, known, gas);
    if (!oxygen) continue;
    auto finding = finding_of(rule, room, "room-oxygen-over", Severity::kOver,
                              too_little_since(rule, scene, room, release));
    finding.values = {{"measured", shown_below(*oxygen, as_number(limit), "percent")},
                      {"limit", shown(limit)},
                      {"baseline", shown(*rule.figure("baseline"))},
                      {"gas", shown_number(gas, "m3")},
                      {"volume", shown_number(*number_of(known, "volume_m3", "m3"), "m3")}};
    said.findings.push_back(std::move(finding));
  }
}

/// A number of the register beyond a figure: what brings a law into force, or a rating.
void judge_attribute_over(const Rule& rule, const Scene& scene, Judgement& said) {
  const RuleFigure& limit = *rule.figure("limit");
  const bool noted = rule.setting("weight") == "note";
  for (const Subject& thing : subjects_of(rule, scene)) {
    const auto value_of = [&](const entries::Fields& known) {
      return tallies::measure(known, rule.setting("field"), limit.unit);
    };
    const auto is_over = [&](const entries::Fields& known) {
      const auto value = value_of(known);
      return value && value->value > limit.value;
    };
    if (!is_over(scene.attributes(thing))) continue;
    const auto value = value_of(scene.attributes(thing));
    auto finding =
        finding_of(rule, thing, "attribute-over", noted ? Severity::kNote : Severity::kOver,
                   held_since(scene, thing, is_over));
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
    const auto millionths_of = [](const entries::Fields& known) -> std::optional<std::int64_t> {
      const auto pressure = tallies::measure(known, "working_pressure_bar", "bar");
      const auto volume = tallies::measure(known, "volume_l", "l");
      if (!pressure || !volume) return std::nullopt;
      return pressure->value.thousandths * volume->value.thousandths;
    };
    const auto is_reached = [&](const entries::Fields& known) {
      const auto millionths = millionths_of(known);  // before anything is rounded
      return millionths && *millionths >= limit.value.thousandths * 1000;
    };
    const entries::Fields& known = scene.attributes(thing);
    if (!is_reached(known)) continue;
    const std::int64_t product = base::divide_round_half_away(*millionths_of(known), 1000);
    auto finding = finding_of(rule, thing, "pressure-volume-over", Severity::kNote,
                              held_since(scene, thing, is_reached));
    finding.values = {
        {"measured", shown(base::Decimal{product}, limit.unit)},
        {"limit", shown(limit)},
        {"pressure", shown_number(*number_of(known, "working_pressure_bar", "bar"), "bar")},
        {"volume", shown_number(*number_of(known, "volume_l", "l"), "l")}};
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
