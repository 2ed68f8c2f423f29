#include "forms/item_rules.h"

#include "base/text.h"
#include "forms/confirmation.h"
#include "forms/effect_roles.h"

namespace benchwarden::forms {
namespace {

constexpr std::string_view kFailed = "failed";

/// The name of what was checked; "" where that could not be read.
std::string thing_of(const Definition& definition, const EffectDefinition& effect,
                     const ReadForm& form, const Surroundings& surroundings) {
  const FieldDefinition* field = find_field(definition, effect.roles.find("thing")->second);
  const auto* id = entries::find_field_as<entries::Id>(form.fields, field->name);
  return id == nullptr ? std::string() : name_of(field->thing_class, id->slug, surroundings);
}

}  // namespace

void check_items(const Definition& definition, const EffectDefinition& effect, const ReadForm& form,
                 const ReadContext& context, entries::Refusals& refusals) {
  const auto role = effect.roles.find("outcome");
  if (role == effect.roles.end() || context.confirmed.contains(role->second)) return;
  const std::string& name = role->second;
  const auto* code = entries::find_field_as<entries::Code>(form.fields, name);
  if (code == nullptr || outcome(code->slug) != entries::Outcome::kPassed) return;
  bool given = form.given.contains(name);
  std::vector<std::string> failed;
  for (const FieldDefinition& field : definition.fields) {
    const auto* item = entries::find_field_as<entries::Code>(form.fields, field.name);
    if (item == nullptr || item->slug != kFailed) continue;
    failed.push_back(field.label);
    given = given || form.given.contains(field.name);
  }
  if (failed.empty() || !given) return;
  const FieldDefinition& field = *find_field(definition, name);
  ask(name,
      {entries::Unusual::kItemFailed, label_of(field, code->slug), base::join(failed, ", "),
       thing_of(definition, effect, form, context.surroundings)},
      context, refusals);
}

}  // namespace benchwarden::forms
