#include "forms/room_rules.h"

#include <algorithm>

#include "forms/confirmation.h"
#include "forms/stream_facts.h"
#include "forms/told_amounts.h"

namespace benchwarden::forms {
namespace {

using entries::Id;
using quantities::Microlitres;
using quantities::Quantity;

/// Whether all that decides could be read, and some of it is new.
bool is_judged(const EffectDefinition& effect, const ReadForm& form) {
  bool fresh = false;
  for (const char* role : {"container", "from", "to", "volume", "mass"}) {
    const std::string field = field_in(effect, role);
    if (form.unreadable.contains(field)) return false;
    fresh = fresh || form.given.contains(field);
  }
  return fresh;
}

/// What stands on a log as a volume, not below zero; none where that cannot be told.
std::optional<Microlitres> held(const std::string& container, const ReadContext& context) {
  const auto log = context.surroundings.log(container, context.corrects);
  if (!log || !log->amount.volume) return std::nullopt;
  return std::max(*log->amount.volume, Microlitres(0));
}

/// What went in or was found, as it is told; a mass with the density that makes it a volume.
struct Poured {
  Microlitres volume{0};
  Quantity told;
  std::optional<quantities::GramsPerCubicMetre> density;
};

Quantity in_ml(Microlitres volume) {
  return {quantities::in_millilitres(volume), quantities::find_unit("ml")};
}

std::optional<Poured> poured(const EffectDefinition& effect, const ReadForm& form,
                             const std::string& into, const ReadContext& context) {
  const auto given = [&](std::string_view role) {
    return entries::find_field_as<Quantity>(form.fields, field_in(effect, role));
  };
  if (const Quantity* volume = given("volume")) {
    return Poured{
        quantities::microlitres(*volume), as_typed(form, field_in(effect, "volume"), *volume), {}};
  }
  if (const Quantity* mass = given("mass")) {
    const auto density = density_of(into, context.surroundings);
    if (!density) return std::nullopt;
    return Poured{volume_of(quantities::milligrams(*mass), *density),
                  as_typed(form, field_in(effect, "mass"), *mass), density};
  }
  const auto* from = entries::find_field_as<Id>(form.fields, field_in(effect, "from"));
  const auto all = from == nullptr ? std::nullopt : held(from->slug, context);
  if (!all) return std::nullopt;
  const auto told = quantities::convert(in_ml(*all), small_volume_unit(context.surroundings));
  return Poured{*all, told ? *told : in_ml(*all), {}};
}

/// The room as an amount of the kind and unit that it is compared with.
Quantity room_beside(const Poured& poured, Microlitres room) {
  const Quantity whole = poured.density
                             ? Quantity{quantities::in_kilograms(mass_of(room, *poured.density)),
                                        quantities::find_unit("kg")}
                             : in_ml(room);
  return rounded_down(whole, *poured.told.unit);
}

/// To the brim, by the register.
std::optional<Microlitres> capacity_of(const std::string& container, const ReadContext& context) {
  const auto thing = context.surroundings.thing("container", container);
  const auto* capacity =
      thing ? entries::find_field_as<Quantity>(thing->attributes, "capacity_l") : nullptr;
  return capacity == nullptr ? std::nullopt : std::optional(quantities::microlitres(*capacity));
}

/// By the register and the book; none where one of them cannot tell.
std::optional<Microlitres> room_in(const std::string& container, const ReadContext& context) {
  const auto capacity = capacity_of(container, context);
  const auto standing = held(container, context);
  if (!capacity || !standing) return std::nullopt;
  return std::max(*capacity - *standing, Microlitres(0));
}

}  // namespace

void check_room(const EffectDefinition& effect, const ReadForm& form, const ReadContext& context,
                entries::Refusals& refusals) {
  if (effect.effect != "adds" && effect.effect != "moves") return;
  if (!is_judged(effect, form)) return;
  const std::string field = field_in(effect, effect.effect == "adds" ? "container" : "to");
  const auto* into = entries::find_field_as<Id>(form.fields, field);
  if (into == nullptr) return;
  const auto amount = poured(effect, form, into->slug, context);
  const auto room = room_in(into->slug, context);
  if (!amount || !room || amount->volume <= *room) return;
  ask(field,
      {entries::Unusual::kNoRoom, told_amount(amount->told, context.surroundings),
       told_amount(room_beside(*amount, *room), context.surroundings),
       name_of("container", into->slug, context.surroundings)},
      context, refusals);
}

void check_reading(const EffectDefinition& effect, const ReadForm& form, const ReadContext& context,
                   entries::Refusals& refusals) {
  if (effect.effect != "reads" || !is_judged(effect, form)) return;
  const auto* read = entries::find_field_as<Id>(form.fields, field_in(effect, "container"));
  if (read == nullptr) return;
  const auto found = poured(effect, form, read->slug, context);
  const auto capacity = capacity_of(read->slug, context);
  if (!found || !capacity || found->volume <= *capacity) return;
  ask(field_in(effect, found->density ? "mass" : "volume"),
      {entries::Unusual::kBeyondBrim, told_amount(found->told, context.surroundings),
       told_amount(room_beside(*found, *capacity), context.surroundings),
       name_of("container", read->slug, context.surroundings)},
      context, refusals);
}

}  // namespace benchwarden::forms
