#include "forms/played_roles.h"

#include <algorithm>
#include <string>

#include "forms/effect_roles.h"

namespace benchwarden::forms {
namespace {

using entries::find_field_as;

/// Of the fields of one entry, the first that does not play its role in one effect.
class RoleCheck {
 public:
  RoleCheck(const EffectDefinition& effect, const Definition& definition,
            const entries::Fields& fields)
      : effect_(effect), definition_(definition), fields_(fields) {}

  /// "" where all do.
  [[nodiscard]] std::string faulty_field() const {
    for (const Role& role : *find_roles(effect_.effect)) {
      const auto mapped = effect_.roles.find(role.name);
      if (mapped == effect_.roles.end()) continue;
      const std::size_t dot = role.name.find('.');
      const bool plays = dot == std::string_view::npos
                             ? plays_as_field(role, mapped->second)
                             : plays_in_rows(role, role.name.substr(0, dot), mapped->second);
      if (!plays) return mapped->second;
    }
    return "";
  }

 private:
  [[nodiscard]] bool plays_as_field(const Role& role, const std::string& name) const {
    const entries::FieldValue* value = entries::find_field(fields_, name);
    if (value == nullptr) return !role.required;
    if (role.type == RoleType::kList) return std::holds_alternative<entries::List>(*value);
    return std::visit([&](const auto& one) { return fits(role, one); }, *value) &&
           has_class(role, name);
  }

  [[nodiscard]] bool plays_in_rows(const Role& role, std::string_view list_role,
                                   const std::string& column) const {
    const auto* list = find_field_as<entries::List>(fields_, effect_.roles.find(list_role)->second);
    return list == nullptr ||
           std::all_of(list->rows.begin(), list->rows.end(), [&](const entries::Record& row) {
             const auto cell = std::find_if(row.begin(), row.end(),
                                            [&](const auto& one) { return one.first == column; });
             if (cell == row.end()) return !role.required;
             return std::visit([&](const auto& one) { return fits(role, one); }, cell->second);
           });
  }

  template <class T>
  static bool fits(const Role& role, const T& value) {
    switch (role.type) {
      case RoleType::kVolume:
      case RoleType::kMass:
        return std::is_same_v<T, quantities::Quantity>;
      case RoleType::kCount:
        return is_count(value);
      case RoleType::kCode:
        return is_code_of(role, value);
      case RoleType::kText:
        return std::is_same_v<T, entries::Text>;
      default:
        return std::is_same_v<T, entries::Id>;
    }
  }
  static bool is_count(const quantities::Quantity& value) { return value.value.thousandths >= 0; }
  template <class T>
  static bool is_count(const T&) {
    return false;
  }
  static bool is_code_of(const Role& role, const entries::Code& value) {
    return std::find(role.codes.begin(), role.codes.end(), value.slug) != role.codes.end();
  }
  template <class T>
  static bool is_code_of(const Role&, const T&) {
    return false;
  }

  /// An id whose class stands in another field needs that one, too.
  [[nodiscard]] bool has_class(const Role& role, const std::string& name) const {
    if (role.type != RoleType::kNamedThing && role.type != RoleType::kAnyThing) return true;
    const FieldDefinition* field = find_field(definition_, name);
    return field->class_field.empty() ||
           find_field_as<entries::Code>(fields_, field->class_field) != nullptr;
  }

  const EffectDefinition& effect_;
  const Definition& definition_;
  const entries::Fields& fields_;
};

}  // namespace

base::Status<> check_roles(const Catalog& catalog, const entries::Content& content) {
  const Definition* definition = catalog.find(content.kind);
  if (definition == nullptr) return base::Done{};
  for (const EffectDefinition& effect : definition->effects) {
    if (!holds(effect.when, content.fields)) continue;
    const std::string field = RoleCheck(effect, *definition, content.fields).faulty_field();
    if (field.empty()) continue;
    return base::Error{base::ErrorCode::kDamaged, "an entry of the kind " + content.kind +
                                                      " needs the field '" + field +
                                                      "' with a value that its form takes"};
  }
  return base::Done{};
}

}  // namespace benchwarden::forms
