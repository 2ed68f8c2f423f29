#include "forms/room_rules.h"

#include <algorithm>

#include "forms/confirmation.h"
#include "forms/shown.h"
#include "forms/stream_facts.h"

namespace benchwarden::forms {
namespace {

using entries::Id;
using quantities::Microlitres;
using quantities::Quantity;

std::string field_in(const EffectDefinition& effect, std::string_view role) {
  const auto mapped = effect.roles.find(role);
  return mapped == effect.roles.end() ? std::string() : mapped->second;
}

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

/// What went in, and how that is shown.
struct Poured {
  Microlitres volume{0};
  std::string shown;
  const quantities::Unit* unit = nullptr;  ///< of volume, to show the room in
};

std::string shown_in(Microlitres volume, const quantities::Unit& unit) {
  const Quantity in_ml{quantities::in_millilitres(volume), quantities::find_unit("ml")};
  const auto converted = quantities::convert(in_ml, unit);
  const Quantity& quantity = converted ? *converted : in_ml;
  return shown_amount(quantity.value, *quantity.unit);
}

std::optional<Poured> poured(const EffectDefinition& effect, const ReadForm& form,
                             const std::string& into, const ReadContext& context) {
  const auto given = [&](std::string_view role) {
    return entries::find_field_as<Quantity>(form.fields, field_in(effect, role));
  };
  if (const Quantity* volume = given("volume")) {
    return Poured{quantities::microlitres(*volume), shown_amount(volume->value, *volume->unit),
                  volume->unit};
  }
  const quantities::Unit* ml = quantities::find_unit("ml");
  if (const Quantity* mass = given("mass")) {
    const auto density = density_of(into, context.surroundings);
    if (!density) return std::nullopt;
    return Poured{volume_of(quantities::milligrams(*mass), *density),
                  shown_amount(mass->value, *mass->unit), ml};
  }
  const auto* from = entries::find_field_as<Id>(form.fields, field_in(effect, "from"));
  const auto all = from == nullptr ? std::nullopt : held(from->slug, context);
  if (!all) return std::nullopt;
  return Poured{*all, shown_in(*all, *ml), ml};
}

/// By the register and the book; none where one of them cannot tell.
std::optional<Microlitres> room_in(const std::string& container, const ReadContext& context) {
  const auto thing = context.surroundings.thing("container", container);
  const auto* capacity =
      thing ? entries::find_field_as<Quantity>(thing->attributes, "capacity_l") : nullptr;
  const auto standing = held(container, context);
  if (capacity == nullptr || !standing) return std::nullopt;
  return std::max(quantities::microlitres(*capacity) - *standing, Microlitres(0));
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
      {entries::Unusual::kNoRoom, amount->shown, shown_in(*room, *amount->unit),
       name_of("container", into->slug, context.surroundings)},
      context, refusals);
}

}  // namespace benchwarden::forms
