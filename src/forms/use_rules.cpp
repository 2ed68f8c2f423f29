#include "forms/use_rules.h"

#include "forms/confirmation.h"

namespace benchwarden::forms {
namespace {

/// The thing a form tells to have been used; none where it does not.
const entries::Id* used_in(const entries::Fields& fields, const Use& use) {
  return holds(use.when, fields) ? entries::find_field_as<entries::Id>(fields, use.field) : nullptr;
}

bool told_before(const Use& use, const entries::Id& id, const Original& original) {
  if (original.fields == nullptr) return false;
  const entries::Id* before = used_in(*original.fields, use);
  return before != nullptr && *before == id;
}

void check_use(const std::string& thing_class, const Use& use, const std::string& id,
               const ReadContext& context, entries::Refusals& refusals) {
  const Surroundings& world = context.surroundings;
  const auto thing = world.thing(thing_class, id);
  if (!thing || thing->in_service || thing->retired) return;
  const auto since = thing->out_of_use_since;
  if (since && context.occurred_at < *since) return;
  ask(use.field,
      {entries::Unusual::kWithdrawn, "",
       since ? base::format_date(world.day_of(*since)) : std::string("?"),
       name_of(thing_class, id, world)},
      context, refusals);
}

}  // namespace

void check_uses(const Definition& definition, const ReadForm& form, const Original& original,
                const ReadContext& context, entries::Refusals& refusals) {
  for (const Use& use : definition.uses) {
    const entries::Id* id = used_in(form.fields, use);
    if (id == nullptr || told_before(use, *id, original)) continue;
    check_use(find_field(definition, use.field)->thing_class, use, id->slug, context, refusals);
  }
}

}  // namespace benchwarden::forms
