#include <algorithm>
#include <string>

#include "forms/check_definition.h"
#include "forms/check_field.h"
#include "forms/effect_roles.h"
#include "forms/thing_class.h"

namespace benchwarden::forms {
namespace {

using entries::FieldType;
using quantities::Dimension;

bool is_id_of(const FieldDefinition& field, std::string_view thing_class) {
  return field.type == FieldType::kId && field.thing_class == thing_class;
}

bool is_quantity_of(const FieldDefinition& field, Dimension dimension) {
  return field.type == FieldType::kQuantity && field.unit != nullptr &&
         field.unit->dimension == dimension;
}

/// Whether the effect never happens while the field holds this code.
bool excludes(const Conditions& when, const std::string& field, const std::string& code) {
  return std::any_of(when.begin(), when.end(), [&](const Condition& condition) {
    return condition.field == field &&
           std::find(condition.codes.begin(), condition.codes.end(), code) == condition.codes.end();
  });
}

bool fits(const FieldDefinition& field, const Role& role, const Conditions& when) {
  switch (role.type) {
    case RoleType::kContainer:
      return is_id_of(field, "container");
    case RoleType::kCarrier:
      return is_id_of(field, "carrier");
    case RoleType::kCollection:
      return is_id_of(field, "collection");
    case RoleType::kThing:
      return field.type == FieldType::kId && is_registered_class(field.thing_class);
    case RoleType::kNamedThing:
      return field.type == FieldType::kId && !field.class_field.empty();
    case RoleType::kAnyThing:
      return field.type == FieldType::kId;
    case RoleType::kVolume:
      return is_quantity_of(field, Dimension::kVolume);
    case RoleType::kMass:
      return is_quantity_of(field, Dimension::kMass);
    case RoleType::kCount:
      return is_quantity_of(field, Dimension::kCount) && field.whole;
    case RoleType::kCode:
      return field.type == FieldType::kCode &&
             std::all_of(field.options.begin(), field.options.end(), [&](const auto& option) {
               return excludes(when, field.name, option.code) ||
                      std::find(role.codes.begin(), role.codes.end(), option.code) !=
                          role.codes.end();
             });
    case RoleType::kText:
      return field.type == FieldType::kText;
    case RoleType::kList:
      return field.type == FieldType::kList;
  }
  return false;
}

/// Whether `given` says at least as much as `wanted`.
bool implies(const Conditions& given, const Condition& wanted) {
  return std::any_of(given.begin(), given.end(), [&](const Condition& condition) {
    return condition.field == wanted.field &&
           std::all_of(condition.codes.begin(), condition.codes.end(), [&](const auto& code) {
             return std::find(wanted.codes.begin(), wanted.codes.end(), code) != wanted.codes.end();
           });
  });
}

bool implies(const Conditions& given, const Conditions& wanted) {
  return std::all_of(wanted.begin(), wanted.end(),
                     [&](const Condition& condition) { return implies(given, condition); });
}

bool always_there(const FieldDefinition& field, const EffectDefinition& effect) {
  const bool demanded = field.required || !field.required_when.empty();
  return demanded && implies(effect.when, field.when) && implies(effect.when, field.required_when);
}

class EffectCheck {
 public:
  EffectCheck(const Definition& definition, const EffectDefinition& effect,
              base::FileFaults& faults)
      : definition_(definition), effect_(effect), faults_(faults) {}

  void run() {
    check_conditions(effect_.when, definition_, 0, effect_.line, faults_);
    const std::vector<Role>* roles = find_roles(effect_.effect);
    if (roles == nullptr) {
      fault("is not known; there are " + list_effects());
      return;
    }
    for (const auto& mapped : effect_.roles) {
      const bool known = std::any_of(roles->begin(), roles->end(),
                                     [&](const Role& role) { return role.name == mapped.first; });
      if (!known) fault("has no role '" + mapped.first + "'");
    }
    for (const Role& role : *roles) check_role(role);
    check_keeps();
    check_competence();
  }

 private:
  void check_keeps() {
    if (effect_.keeps.empty()) return;
    if (effect_.effect != "checks" && effect_.effect != "notes") fault("keeps no fields");
    for (const std::string& name : effect_.keeps) {
      if (find_field(definition_, name) == nullptr) fault("keeps no such field: '" + name + "'");
    }
  }

  void check_competence() {
    const bool withdraws = effect_.effect == "checks" && effect_.roles.contains("outcome");
    if (withdraws && effect_.competence.empty()) fault("needs a competence, for its outcome");
    if (!withdraws && !effect_.competence.empty()) fault("takes no competence");
  }

  void check_role(const Role& role) {
    const std::string name(role.name);
    const std::string list_role = name.substr(0, name.find('.'));
    const bool in_list = list_role != name;
    const auto mapped = effect_.roles.find(role.name);
    if (mapped == effect_.roles.end()) {
      const bool needed = !in_list || effect_.roles.contains(list_role);
      if (role.required && needed) fault("needs the role '" + name + "'");
      return;
    }
    const FieldDefinition* field =
        in_list ? column(list_role, mapped->second) : find_field(definition_, mapped->second);
    if (field == nullptr) {
      fault("role '" + name + "' names no field: '" + mapped->second + "'");
      return;
    }
    if (!fits(*field, role, effect_.when))
      fault("role '" + name + "' cannot be played by '" + field->name + "'");
    const bool there = in_list ? field->required : always_there(*field, effect_);
    if (role.required && !there) {
      fault("role '" + name + "' may be empty: '" + field->name + "' is not always required");
    }
  }

  const FieldDefinition* column(const std::string& list_role, const std::string& name) const {
    const auto mapped = effect_.roles.find(list_role);
    if (mapped == effect_.roles.end()) return nullptr;
    const FieldDefinition* list = find_field(definition_, mapped->second);
    return list == nullptr ? nullptr : find_field(list->columns, name);
  }

  void fault(const std::string& reason) {
    faults_.push_back(
        {definition_.file, effect_.line, "effect '" + effect_.effect + "' " + reason});
  }

  const Definition& definition_;
  const EffectDefinition& effect_;
  base::FileFaults& faults_;
};

}  // namespace

void check_effects(const Definition& definition, base::FileFaults& faults) {
  if (definition.effects.empty() && definition.kind != kCorrectionKind) {
    faults.push_back({definition.file, 1, "a form needs an effect, at least 'notes'"});
  }
  for (const EffectDefinition& effect : definition.effects) {
    EffectCheck(definition, effect, faults).run();
  }
}

}  // namespace benchwarden::forms
