#include "forms/definition.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"

namespace benchwarden::forms {

const FieldDefinition* find_field(const std::vector<FieldDefinition>& fields,
                                  std::string_view name) {
  const auto found = std::find_if(fields.begin(), fields.end(),
                                  [&](const FieldDefinition& field) { return field.name == name; });
  return found == fields.end() ? nullptr : &*found;
}

const FieldDefinition* find_field(const Definition& definition, std::string_view name) {
  return find_field(definition.fields, name);
}

bool is_free_text(const FieldDefinition& field) {
  return field.type == entries::FieldType::kText && field.format == TextFormat::kAny;
}

std::string field_in(const EffectDefinition& effect, std::string_view role) {
  const auto mapped = effect.roles.find(role);
  return mapped == effect.roles.end() ? std::string() : mapped->second;
}

bool has_option(const FieldDefinition& field, std::string_view code) {
  return std::any_of(field.options.begin(), field.options.end(),
                     [&](const CodeOption& option) { return option.code == code; });
}

const std::string& label_of(const FieldDefinition& field, std::string_view code) {
  const auto found = std::find_if(field.options.begin(), field.options.end(),
                                  [&](const CodeOption& option) { return option.code == code; });
  assert(found != field.options.end());
  return found->label;
}

std::string list_codes(const FieldDefinition& field) {
  std::vector<std::string> codes;
  for (const CodeOption& option : field.options) codes.push_back(option.code);
  return base::join(codes, ", ");
}

bool holds(const Conditions& conditions, const entries::Fields& fields) {
  return std::all_of(conditions.begin(), conditions.end(), [&](const Condition& condition) {
    const auto* code = entries::find_field_as<entries::Code>(fields, condition.field);
    return code != nullptr && std::find(condition.codes.begin(), condition.codes.end(),
                                        code->slug) != condition.codes.end();
  });
}

}  // namespace benchwarden::forms
