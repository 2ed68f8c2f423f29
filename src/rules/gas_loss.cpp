#include "rules/gas_loss.h"

#include <algorithm>
#include <utility>

#include "calculations/nitrogen_content.h"
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
  const auto pressure = number_of(record, "gauge_pressure_bar", "bar");
  if (!pressure) return Untold::kNoPressure;
  const auto temperature = number_of(record, "ambient_temperature_c", "c");
  if (!temperature) return Untold::kNoTemperature;
  return Reading{quantities::litres(*capacity),
                 absolute(quantities::bar_gauge(*pressure), atmosphere()),
                 quantities::celsius(*temperature)};
}

/// Of the gauge the entry names, else the rule's usual one.
quantities::AbsolutePressure reading_uncertainty(const Rule& rule, const Scene& scene,
                                                 const Record& check) {
  const std::string gauge(check.word("gauge"));
  const auto known = gauge_of(scene.attributes({"gauge", gauge}));
  const double percent = known ? known->gauge_class->outer_percent : number(rule, "gauge_class");
  const double span = known ? known->scale.span() : number(rule, "gauge_span");
  return calculations::gauge_reading_uncertainty(percent, quantities::bar_gauge(span),
                                                 quantities::bar_gauge(number(rule, "resolution")));
}

CylinderReading trusted(const Rule& rule, const Scene& scene, const Record& check,
                        const Reading& reading) {
  return {reading.pressure, reading.temperature, reading_uncertainty(rule, scene, check),
          quantities::Temperature(number(rule, "temperature_uncertainty"))};
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
  const auto units = number_of(use, "unit_count", "1");
  const auto pressure = number_of(use, "charge_pressure_bar", "bar");
  const auto space_ml = number_of(use, "unit_gas_volume_ml", "ml");
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

bool is_filling(const Record& change) {
  if (change.kind != "cylinder-change") return false;
  const std::string_view word = change.word("change");
  return change.has("filled_on") || word == "refilled" || word == "returned";
}

ToldOf checks_since_filling(const Scene& scene, const Subject& cylinder) {
  ToldOf checks;
  for (const Record* record : NewestFirst(scene, cylinder, {"cylinder-check", "cylinder-change"})) {
    if (record->kind == "cylinder-check") {
      checks.push_back(record);
    } else if (is_filling(*record)) {
      break;
    }
  }
  return checks;
}

std::vector<ToldOf> checks_by_filling(const Scene& scene, const Subject& cylinder) {
  std::vector<ToldOf> fillings(1);
  for (const Record* record : NewestFirst(scene, cylinder, {"cylinder-check", "cylinder-change"})) {
    if (record->kind == "cylinder-check") {
      fillings.back().push_back(record);
    } else if (is_filling(*record)) {
      fillings.emplace_back();
    }
  }
  return fillings;
}

GasLosses::GasLosses(const Rule& rule, const Scene& scene, Subject cylinder)
    : rule_(rule), scene_(scene), cylinder_(std::move(cylinder)) {}

bool GasLosses::is_readable(const Record& check) {
  const auto known = readable_.find(&check);
  if (known != readable_.end()) return known->second;
  return readable_.emplace(&check, reading_of(scene_, cylinder_, check).ok()).first->second;
}

const GasLosses::Content& GasLosses::content_of(const Record& check) {
  const auto known = contents_.find(&check);
  if (known != contents_.end()) return known->second;
  const auto read = reading_of(scene_, cylinder_, check);
  if (!read) return contents_.emplace(&check, read.error()).first->second;
  const auto content =
      calculations::uncertain_content(read->water_capacity, trusted(rule_, scene_, check, *read));
  return contents_.emplace(&check, content ? Content(*content) : Content(Untold::kOutOfRange))
      .first->second;
}

const Told<Mass>& GasLosses::taken_by(const Record& use) {
  const auto known = uses_.find(&use);
  return known != uses_.end() ? known->second : uses_.emplace(&use, use_of(use)).first->second;
}

ToldOf GasLosses::uses_within(base::Instant from, base::Instant until) const {
  ToldOf uses;
  for (const Record* use : NewestFirst(scene_, cylinder_, {"gas-use"}, until)) {
    if (use->at <= from) break;
    uses.push_back(use);
  }
  return uses;
}

/// With the rule's allowance for hoses and blowing off.
Told<Mass> GasLosses::logged_use(base::Instant from, base::Instant until) {
  Mass sum;
  for (const Record* use : uses_within(from, until)) {
    const auto& one = taken_by(*use);
    if (!one) return one.error();
    sum = sum + *one;
  }
  return sum * (1 + number(rule_, "use_allowance") / kPercent);
}

int GasLosses::untold_uses(base::Instant from, base::Instant until) {
  const ToldOf uses = uses_within(from, until);
  return static_cast<int>(
      std::count_if(uses.begin(), uses.end(), [&](const Record* use) { return !taken_by(*use); }));
}

/// The check before one, and the others within the rule's window, as far as their content can be
/// told; the newest first.
ToldOf GasLosses::readable_before(const ToldOf& checks, std::size_t place) {
  const auto days = static_cast<int>(number(rule_, "window"));
  const base::CivilDate last = scene_.day_of(checks[place]->at);
  const base::Instant from = scene_.zone().start_of(base::add_days(last, -days));
  ToldOf readable;
  for (std::size_t older = place + 1; older < checks.size(); ++older) {
    if (!readable.empty() && checks[older]->at < from) break;
    if (is_readable(*checks[older])) readable.push_back(checks[older]);
  }
  return readable;
}

/// The oldest of the checks that no use lies behind which does not tell what it took, so that one
/// such use hides no slow loss after it. nullptr for none, or where none lies between them.
const Record* GasLosses::oldest_since_untold(const ToldOf& newest_first, base::Instant until) {
  const ToldOf uses = uses_within(newest_first.back()->at, until);
  const auto use =
      std::find_if(uses.begin(), uses.end(), [&](const Record* one) { return !taken_by(*one); });
  if (use == uses.end()) return nullptr;
  const Record* found = nullptr;
  for (const Record* check : newest_first) {
    if (check->at >= (*use)->at) found = check;
  }
  return found;
}

Told<GasLoss> GasLosses::between(const Record& first, const Record& second) {
  if (const auto read = reading_of(scene_, cylinder_, first); !read) return read.error();
  if (const auto read = reading_of(scene_, cylinder_, second); !read) return read.error();
  const auto used = logged_use(first.at, second.at);
  if (!used) return used.error();
  const Content& before = content_of(first);
  const Content& after = content_of(second);
  if (!before || !after) return Untold::kOutOfRange;
  const auto loss = calculations::nitrogen_loss(
      *before, *after, number(rule_, "capacity_uncertainty") / kPercent, *used, Mass(0));
  return GasLoss{first.seq,
                 first.at,
                 *used,
                 loss.loss,
                 loss.expanded_uncertainty,
                 std::string(calculations::verdict_code(loss.verdict))};
}

LossAt GasLosses::at(const ToldOf& checks, std::size_t place) {
  const auto read = reading_of(scene_, cylinder_, *checks[place]);
  const ToldOf earlier = readable_before(checks, place);
  const bool first = place + 1 == checks.size();
  if (!read) return {std::nullopt, first ? Untold::kFirstOfFilling : read.error(), nullptr};
  if (earlier.empty()) {
    const auto before = first ? Told<Reading>(Untold::kFirstOfFilling)
                              : reading_of(scene_, cylinder_, *checks[place + 1]);
    return {std::nullopt, before.error(), nullptr};
  }
  LossAt told;
  const Record* since_untold = oldest_since_untold(earlier, checks[place]->at);
  for (const Record* from : {earlier.front(), since_untold, earlier.back()}) {
    if (from == nullptr) continue;
    const auto loss = between(*from, *checks[place]);
    if (loss && loss->loss > loss->expanded_uncertainty) return {*loss, std::nullopt, from};
    if (!loss && !told.untold) told = {std::nullopt, loss.error(), from};
  }
  return told;
}

}  // namespace benchwarden::rules
