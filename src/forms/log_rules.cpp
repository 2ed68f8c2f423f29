#include "forms/log_rules.h"

#include <algorithm>

#include "forms/confirmation.h"
#include "forms/effect_roles.h"
#include "forms/stream_facts.h"
#include "forms/told_amounts.h"

namespace benchwarden::forms {
namespace {

using entries::Id;
using entries::Unusual;
using quantities::Quantity;

/// How far a mass may be from volume times density, in hundredths: a registered density is that of
/// oil without water or sludge. Common practice, no source.
constexpr std::int64_t kSpread = 20;
constexpr std::int64_t kWhole = 100;

/// An amount as given, and the place of the field that gives it.
struct Given {
  std::string path;
  const Quantity* quantity = nullptr;
};

/// What leaves one container.
struct Leaving {
  std::string container;
  Given volume;
  Given mass;
};

bool takes_away(const EffectDefinition& effect, const entries::Fields& fields) {
  const auto* stage = entries::find_field_as<entries::Code>(fields, field_in(effect, "stage"));
  return stage != nullptr && collection_stage(stage->slug) == entries::CollectionStage::kTaken;
}

/// Of a correction only what it names newly; what stays is not judged again.
std::vector<Leaving> moved(const EffectDefinition& effect, const ReadForm& form) {
  const std::string from = field_in(effect, "from");
  const auto* id = entries::find_field_as<Id>(form.fields, from);
  if (id == nullptr) return {};
  const auto given = [&](std::string_view role) {
    const std::string field = field_in(effect, role);
    const bool fresh = form.given.contains(field) || form.given.contains(from);
    return Given{field, fresh ? entries::find_field_as<Quantity>(form.fields, field) : nullptr};
  };
  return {{id->slug, given("volume"), given("mass")}};
}

std::vector<Leaving> loaded(const EffectDefinition& effect, const ReadForm& form) {
  std::vector<Leaving> all;
  const std::string field = field_in(effect, "loads");
  const auto* list = entries::find_field_as<entries::List>(form.fields, field);
  if (list == nullptr || !form.given.contains(field)) return all;
  for (std::size_t i = 0; i < list->rows.size(); ++i) {
    const entries::Record& row = list->rows[i];
    const auto* id = entries::find_scalar_as<Id>(row, field_in(effect, "loads.container"));
    if (id == nullptr) continue;
    const auto given = [&](std::string_view role) {
      const std::string column = field_in(effect, role);
      return Given{field + "/" + std::to_string(i) + "/" + column,
                   entries::find_scalar_as<Quantity>(row, column)};
    };
    all.push_back({id->slug, given("loads.volume"), given("loads.mass")});
  }
  return all;
}

/// What stands on the log, in the unit of the amount it is compared with; none where the stream
/// has no density to turn one into the other.
std::optional<base::Decimal> standing(const entries::Amount& log, const quantities::Unit& unit) {
  const bool volume = unit.dimension == quantities::Dimension::kVolume;
  if (volume ? !log.volume : !log.mass) return std::nullopt;
  const Quantity amount =
      volume ? Quantity{quantities::in_millilitres(*log.volume), quantities::find_unit("ml")}
             : Quantity{quantities::in_kilograms(*log.mass), quantities::find_unit("kg")};
  const auto converted = quantities::convert(amount, unit);
  if (!converted) return std::nullopt;
  return std::max(converted->value, base::Decimal{0});
}

Quantity typed(const ReadForm& form, const Given& given) {
  return as_typed(form, given.path, *given.quantity);
}

void check_leaving(const Leaving& leaving, const ReadForm& form, const ReadContext& context,
                   entries::Refusals& refusals) {
  if (leaving.volume.quantity == nullptr && leaving.mass.quantity == nullptr) return;
  const auto log = context.surroundings.log(leaving.container, context.corrects);
  if (!log) return;
  const Given& counted = log->by_volume ? leaving.volume : leaving.mass;
  const Given& other = log->by_volume ? leaving.mass : leaving.volume;
  const Given& given = counted.quantity != nullptr ? counted : other;
  const quantities::Unit& unit = *given.quantity->unit;
  const auto most = standing(log->amount, unit);
  if (!most || given.quantity->value <= *most) return;
  const Quantity told = typed(form, given);
  const Quantity held{*most, &unit};
  const Surroundings& world = context.surroundings;
  ask(given.path,
      {Unusual::kMoreThanLog, told_amount(told, world),
       told_amount(told.unit == &unit ? held : rounded_down(held, *told.unit), world),
       name_of("container", leaving.container, context.surroundings)},
      context, refusals);
}

/// A volume and a mass of one load are of the same waste: the mass is what the density makes of the
/// volume, give or take kSpread.
void check_together(const Leaving& leaving, const ReadForm& form, const ReadContext& context,
                    entries::Refusals& refusals) {
  if (leaving.volume.quantity == nullptr || leaving.mass.quantity == nullptr) return;
  const auto density = density_of(leaving.container, context.surroundings);
  if (!density) return;
  const auto expected = mass_of(quantities::microlitres(*leaving.volume.quantity), *density);
  const quantities::Milligrams spread(expected.count() * kSpread / kWhole);
  const auto mass = quantities::milligrams(*leaving.mass.quantity);
  if (mass >= expected - spread && mass <= expected + spread) return;
  const Band usual{quantities::in_kilograms(expected - spread),
                   quantities::in_kilograms(expected + spread)};
  const Quantity told = typed(form, leaving.mass);
  ask(leaving.mass.path,
      {Unusual::kMassForVolume, told_amount(told, context.surroundings),
       told_band(usual, *quantities::find_unit("kg"), *told.unit, context.surroundings),
       name_of("container", leaving.container, context.surroundings)},
      context, refusals);
}

}  // namespace

void check_log(const EffectDefinition& effect, const ReadForm& form, const ReadContext& context,
               entries::Refusals& refusals) {
  std::vector<Leaving> all;
  if (effect.effect == "moves") all = moved(effect, form);
  if (effect.effect == "takes" && takes_away(effect, form.fields)) all = loaded(effect, form);
  for (const Leaving& leaving : all) {
    check_leaving(leaving, form, context, refusals);
    check_together(leaving, form, context, refusals);
  }
}

}  // namespace benchwarden::forms
