#include "forms/item_rules.h"

#include <algorithm>

#include "base/text.h"
#include "forms/effect_roles.h"

namespace benchwarden::forms {
namespace {

constexpr std::string_view kFailed = "failed";

const std::string& label_of(const FieldDefinition& field, std::string_view code) {
  return std::find_if(field.options.begin(), field.options.end(),
                      [&](const CodeOption& option) { return option.code == code; })
      ->label;
}

/// What would fit: "Withdrawn".
std::string other_outcomes(const FieldDefinition& field) {
  std::vector<std::string> labels;
  for (const CodeOption& option : field.options) {
    if (outcome(option.code) != entries::Outcome::kPassed) labels.push_back(option.label);
  }
  return base::join(labels, ", ");
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
    failed.push_back(field.label + " = " + label_of(field, kFailed));
    given = given || form.given.contains(field.name);
  }
  if (failed.empty() || !given) return;
  const FieldDefinition& field = *find_field(definition, name);
  refusals.push_back({"/fields/" + name, entries::RefusalCode::kNeedsConfirmation,
                      label_of(field, code->slug) + " (" + base::join(failed, ", ") + ")",
                      other_outcomes(field)});
}

}  // namespace benchwarden::forms
