#include "rules/gas_loss.h"

#include <algorithm>

#include "calculations/nitrogen_content.h"
#include "calculations/nitrogen_loss.h"
#include "rules/gauge_facts.h"
#include "rules/limits.h"
#include "tallies/facts.h"

namespace benchwarden::rules {
namespace {

using calculations::CylinderReading;
using findings::GasContent;
using findings::GasLoss;
using findings::Subject;
using findings::Told;
using findings::Untold;
using quantities::Mass;
using tallies::Record;

constexpr double kPercent = 100;

double number(const Rule& rule, std::string_view name) {
  const RuleFigure* figure = rule.figure(name);
  return figure == nullptr ? 0 : as_number(*figure);
}

quantities::AbsolutePressure atmosphere() { return calculations::GasBase().pressure; }

struct Reading {
  quantities::Volume water_capacity;
  quantities::AbsolutePressure pressure;
  quantities::Temperature temperature;
};

Told<Reading> reading_of(const Scene& scene, const Subject& cylinder, const Record& record) {
  const entries::Fields& attributes = scene.attributes(cylinder);
  if (tallies::word(attributes, "gas") != "nitrogen") return Untold::kOtherGas;
  const auto capacity = number_of(attributes, "water_capacity_l", "l");
  if (!capacity) return Untold::kNoWaterCapacity;
  const entries::Fields fields = record.fields();
  const auto pressure = number_of(fields, "gauge_pressure_bar", "bar");
  if (!pressure) return Untold::kNoPressure;
  const auto temperature = number_of(fields, "ambient_temperature_c", "c");
  if (!temperature) return Untold::kNoTemperature;
  return Reading{quantities::litres(*capacity),
                 absolute(quantities::bar_gauge(*pressure), atmosphere()),
                 quantities::celsius(*temperature)};
}

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

CylinderReading trusted(const Rule& rule, const Scene& scene, const Record& check,
                        const Reading& reading) {
  return {reading.pressure, reading.temperature, reading_uncertainty(rule, scene, check.fields()),
          quantities::Temperature(number(rule, "temperature_uncertainty"))};
}

/// Use that was logged in (from, until], with the rule's allowance for hoses and blowing off.
Told<Mass> logged_use(const Rule& rule, const Scene& scene, const Subject& cylinder,
                      base::Instant from, base::Instant until) {
  Mass sum;
  for (const Record* use : told_of(scene, cylinder, {"gas-use"})) {
    if (use->at <= from || use->at > until) continue;
    const auto one = use_of(*use);
    if (!one) return one.error();
    sum = sum + *one;
  }
  return sum * (1 + number(rule, "use_allowance") / kPercent);
}

/// The check before one, and the others within the rule's window, as far as their content can be
/// told; the newest first.
ToldOf readable_before(const Rule& rule, const Scene& scene, const Subject& cylinder,
                       const ToldOf& checks, std::size_t at) {
  const auto days = static_cast<int>(number(rule, "window"));
  ToldOf readable;
  for (std::size_t older = at + 1; older < checks.size(); ++older) {
    const base::CivilDate day = scene.day_of(checks[older]->at);
    const bool within = base::days_between(day, scene.day_of(checks[at]->at)) <= days;
    if (!readable.empty() && !within) break;
    if (reading_of(scene, cylinder, *checks[older])) readable.push_back(checks[older]);
  }
  return readable;
}

/// The oldest of the checks that no use lies behind which does not tell what it took, so that one
/// such use hides no slow loss after it. nullptr for none.
const Record* oldest_since_untold(const Scene& scene, const Subject& cylinder,
                                  const ToldOf& newest_first, base::Instant until) {
  const ToldOf uses = told_of(scene, cylinder, {"gas-use"});
  const auto use = std::find_if(uses.begin(), uses.end(), [&](const Record* one) {
    return one->at <= until && !use_of(*one);
  });
  if (use == uses.end()) return nullptr;
  const Record* found = nullptr;
  for (const Record* check : newest_first) {
    if (check->at >= (*use)->at) found = check;
  }
  return found;
}

}  // namespace

Told<GasContent> content_at(const Scene& scene, const Subject& cylinder, const Record& reading) {
  const auto read = reading_of(scene, cylinder, reading);
  if (!read) return read.error();
  const auto mass =
      calculations::nitrogen_mass(read->water_capacity, read->pressure, read->temperature);
  if (!mass) return Untold::kOutOfRange;
  const auto volume = calculations::nitrogen_volume(*mass, calculations::GasBase());
  if (!volume) return Untold::kOutOfRange;
  return GasContent{*mass, *volume};
}

Told<Mass> use_of(const Record& use) {
  const entries::Fields fields = use.fields();
  const auto units = number_of(fields, "unit_count", "1");
  const auto pressure = number_of(fields, "charge_pressure_bar", "bar");
  const auto space_ml = number_of(fields, "unit_gas_volume_ml", "ml");
  if (!units || !pressure || !space_ml) return Untold::kUseNotTold;
  constexpr double kRoomCelsius = 20;
  const auto space = quantities::litres(*space_ml / 1000);
  const auto room = quantities::celsius(kRoomCelsius);
  const auto charged = calculations::nitrogen_mass(
      space, absolute(quantities::bar_gauge(*pressure), atmosphere()), room);
  const auto before = calculations::nitrogen_mass(space, atmosphere(), room);
  if (!charged || !before) return Untold::kOutOfRange;
  return (*charged - *before) * *units;
}

Told<GasLoss> loss_between(const Rule& rule, const Scene& scene, const Subject& cylinder,
                           const Record& first, const Record& second) {
  const auto before = reading_of(scene, cylinder, first);
  if (!before) return before.error();
  const auto after = reading_of(scene, cylinder, second);
  if (!after) return after.error();
  const auto used = logged_use(rule, scene, cylinder, first.at, second.at);
  if (!used) return used.error();
  const auto loss = calculations::nitrogen_loss(
      after->water_capacity, number(rule, "capacity_uncertainty") / kPercent,
      trusted(rule, scene, first, *before), trusted(rule, scene, second, *after), *used, Mass(0));
  if (!loss) return Untold::kOutOfRange;
  return GasLoss{first.seq,
                 first.at,
                 *used,
                 loss->loss,
                 loss->expanded_uncertainty,
                 std::string(calculations::verdict_code(loss->verdict))};
}

bool is_filling(const Record& change) {
  if (change.kind != "cylinder-change") return false;
  const entries::Fields fields = change.fields();
  const std::string_view word = tallies::word(fields, "change");
  return entries::find_field(fields, "filled_on") != nullptr || word == "refilled" ||
         word == "returned";
}

std::vector<ToldOf> checks_by_filling(const Scene& scene, const Subject& cylinder) {
  std::vector<ToldOf> fillings(1);
  for (const Record* record : told_of(scene, cylinder, {"cylinder-check", "cylinder-change"})) {
    if (record->kind == "cylinder-check") {
      fillings.back().push_back(record);
    } else if (is_filling(*record)) {
      fillings.emplace_back();
    }
  }
  return fillings;
}

LossAt loss_at(const Rule& rule, const Scene& scene, const Subject& cylinder, const ToldOf& checks,
               std::size_t at) {
  const auto read = reading_of(scene, cylinder, *checks[at]);
  const ToldOf earlier = readable_before(rule, scene, cylinder, checks, at);
  const bool first = at + 1 == checks.size();
  if (!read) return {std::nullopt, first ? Untold::kFirstOfFilling : read.error(), nullptr};
  if (earlier.empty()) {
    const auto before = first ? Told<Reading>(Untold::kFirstOfFilling)
                              : reading_of(scene, cylinder, *checks[at + 1]);
    return {std::nullopt, before.error(), nullptr};
  }
  LossAt told;
  const Record* since_untold = oldest_since_untold(scene, cylinder, earlier, checks[at]->at);
  for (const Record* from : {earlier.front(), since_untold, earlier.back()}) {
    if (from == nullptr) continue;
    const auto loss = loss_between(rule, scene, cylinder, *from, *checks[at]);
    if (loss && loss->loss > loss->expanded_uncertainty) return {*loss, std::nullopt, from};
    if (!loss && !told.untold) told = {std::nullopt, loss.error(), from};
  }
  return told;
}

}  // namespace benchwarden::rules
