#include "forms/rules.h"

#include "forms/by_use_rules.h"
#include "forms/claim_rules.h"
#include "forms/collection_rules.h"
#include "forms/container_rules.h"
#include "forms/effect_roles.h"
#include "forms/finding_rules.h"
#include "forms/hold_rules.h"
#include "forms/item_rules.h"
#include "forms/log_rules.h"
#include "forms/month_rules.h"
#include "forms/order_rules.h"
#include "forms/register_rules.h"
#include "forms/room_rules.h"
#include "forms/suspicion_rules.h"
#include "forms/use_rules.h"

namespace benchwarden::forms {
namespace {

using entries::Code;
using entries::Id;
using entries::RefusalCode;

/// The value in a role when it could be read.
template <class T>
const T* value_in(const EffectDefinition& effect, std::string_view role,
                  const entries::Fields& fields) {
  return entries::find_field_as<T>(fields, field_in(effect, role));
}

/// The outcome that the entry's check gives, if it gives one.
std::optional<entries::Outcome> outcome_in(const EffectDefinition& effect,
                                           const entries::Fields& fields) {
  const auto* code = value_in<Code>(effect, "outcome", fields);
  return code == nullptr ? std::nullopt : outcome(code->slug);
}

/// Whether a correction takes back that a thing was withdrawn, or puts another in its place: that
/// returns the thing to service as surely as a passed inspection does. Refuses it to everybody who
/// is not entered as competent for that.
bool takes_withdrawal_back(const EffectDefinition& effect, const ReadForm& form,
                           const Original& original, const Surroundings& surroundings,
                           entries::Refusals& refusals) {
  if (original.fields == nullptr || surroundings.person_may(effect.competence)) return false;
  const bool withdrew = holds(effect.when, *original.fields) &&
                        outcome_in(effect, *original.fields) == entries::Outcome::kWithdrawn;
  if (!withdrew) return false;
  const bool still_withdraws = holds(effect.when, form.fields) &&
                               outcome_in(effect, form.fields) == entries::Outcome::kWithdrawn;
  const auto* before = value_in<Id>(effect, "thing", *original.fields);
  const auto* after = value_in<Id>(effect, "thing", form.fields);
  const bool same_thing = before != nullptr && after != nullptr && *before == *after;
  if (still_withdraws && same_thing) return false;
  const std::string field = field_in(effect, still_withdraws ? "thing" : "outcome");
  refusals.push_back({"/fields/" + field, RefusalCode::kNotCompetent, "",
                      before == nullptr ? std::string() : before->slug});
  return true;
}

void check_return(const Definition& definition, const EffectDefinition& effect,
                  const ReadForm& form, const Original& original, const Surroundings& surroundings,
                  entries::Refusals& refusals) {
  const auto* id = value_in<Id>(effect, "thing", form.fields);
  if (id == nullptr || outcome_in(effect, form.fields) != entries::Outcome::kPassed) return;
  const bool stands_already = original.fields != nullptr &&
                              outcome_in(effect, *original.fields) == entries::Outcome::kPassed;
  if (stands_already || surroundings.person_may(effect.competence)) return;
  const FieldDefinition* thing_field = find_field(definition, field_in(effect, "thing"));
  const auto thing = surroundings.thing(thing_field->thing_class, id->slug);
  if (!thing || thing->in_service) return;
  const std::string field = field_in(effect, "outcome");
  refusals.push_back({"/fields/" + field, RefusalCode::kNotCompetent,
                      entries::find_field_as<Code>(form.fields, field)->slug, id->slug});
}

/// What is fixed stays as it was entered, in a correction too: it is neither given another value
/// nor emptied.
void check_fixed(const Definition& definition, const ReadForm& form, const Original& original,
                 entries::Refusals& refusals) {
  if (original.fields == nullptr) return;
  for (const FieldDefinition& field : definition.fields) {
    if (!field.fixed || form.unreadable.contains(field.name)) continue;
    const auto* before = entries::find_field(*original.fields, field.name);
    const auto* after = entries::find_field(form.fields, field.name);
    const bool same = before == nullptr || after == nullptr ? before == after : *before == *after;
    if (!same) {
      refusals.push_back({"/fields/" + field.name, RefusalCode::kFixedAttribute, "", ""});
    }
  }
}

}  // namespace

void check_rules(const Definition& definition, const ReadForm& form, const Original& original,
                 const ReadContext& context, entries::Refusals& refusals) {
  const Surroundings& surroundings = context.surroundings;
  check_containers(definition, form, context, refusals);
  check_by_use(definition, form, original, context, refusals);
  check_finding(form, original, context, refusals);
  check_order(definition, form, original, surroundings, refusals);
  check_month_close(definition, form, original, context, refusals);
  check_hold(definition, form, original, context, refusals);
  check_uses(definition, form, original, context, refusals);
  for (const EffectDefinition& effect : definition.effects) {
    if (effect.effect == "checks" &&
        takes_withdrawal_back(effect, form, original, surroundings, refusals)) {
      continue;
    }
    if (!holds(effect.when, form.fields)) continue;
    check_log(effect, form, context, refusals);
    check_suspicion(definition, effect, form, context, refusals);
    check_room(effect, form, context, refusals);
    check_reading(effect, form, context, refusals);
    check_halogenated(definition, effect, form, context, refusals);
    check_passed_on(effect, form, context, refusals);
    if (effect.effect == "takes") {
      check_collection(definition, effect, form, original, context, refusals);
    }
    if (effect.effect == "checks") {
      check_return(definition, effect, form, original, surroundings, refusals);
      check_items(definition, effect, form, context, refusals);
    }
    if (effect.effect == "confirms") {
      check_answer(definition.kind, effect, form, original, surroundings, refusals);
    }
    if (effect.effect == "changes") {
      check_register(definition, effect, form, original, surroundings, refusals);
    }
  }
  check_fixed(definition, form, original, refusals);
}

void check_strike_out(const Definition& definition, const entries::Fields& struck,
                      const ReadContext& context, entries::Refusals& refusals) {
  const Surroundings& surroundings = context.surroundings;
  check_by_use_strike_out(definition, struck, context, refusals);
  for (const EffectDefinition& effect : definition.effects) {
    if (!holds(effect.when, struck)) continue;
    if (effect.effect == "takes") {
      check_collection_strike_out(definition, effect, struck, context, refusals);
    }
    if (effect.effect == "confirms") check_answer_strike_out(context, refusals);
    if (effect.effect == "changes") {
      check_register_strike_out(definition, effect, struck, surroundings, refusals);
    }
    const bool withdrew =
        effect.effect == "checks" && outcome_in(effect, struck) == entries::Outcome::kWithdrawn;
    if (!withdrew || surroundings.person_may(effect.competence)) continue;
    const auto* id = value_in<Id>(effect, "thing", struck);
    refusals.push_back(
        {"/corrects", RefusalCode::kNotCompetent, "", id == nullptr ? std::string() : id->slug});
  }
}

}  // namespace benchwarden::forms
