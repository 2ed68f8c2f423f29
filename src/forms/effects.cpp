#include <algorithm>
#include <cassert>

#include "forms/effect_reader.h"
#include "forms/effect_roles.h"
#include "forms/submission.h"
#include "forms/thing_class.h"

namespace benchwarden::forms {
namespace {

using entries::find_field_as;
using entries::find_scalar_as;

/// One effect of one content: looks its roles up. The catalog has made sure that a required role
/// is played by a field of the right type that is always there.
class RoleReader {
 public:
  RoleReader(const Definition& definition, const EffectDefinition& effect,
             const entries::Fields& fields)
      : definition_(definition), effect_(effect), fields_(fields) {}

  [[nodiscard]] std::string id(std::string_view role) const {
    const auto* value = find<entries::Id>(role);
    return value == nullptr ? std::string() : value->slug;
  }
  [[nodiscard]] std::string code(std::string_view role) const {
    const auto* value = find<entries::Code>(role);
    return value == nullptr ? std::string() : value->slug;
  }
  [[nodiscard]] std::string text(std::string_view role) const {
    const auto* value = find<entries::Text>(role);
    return value == nullptr ? std::string() : value->text;
  }
  [[nodiscard]] entries::Amount amount() const {
    return make_amount(find<quantities::Quantity>("volume"), find<quantities::Quantity>("mass"));
  }
  /// Whether a field plays this role and is filled in.
  [[nodiscard]] bool plays(std::string_view role) const {
    return find<entries::Id>(role) != nullptr;
  }
  /// The class of the thing in this role, wherever it stands.
  [[nodiscard]] std::string thing_class(std::string_view role) const {
    const FieldDefinition& thing = field(role);
    if (thing.class_field.empty()) return thing.thing_class;
    const auto* code = find_field_as<entries::Code>(fields_, thing.class_field);
    assert(code != nullptr);
    return code->slug;
  }
  [[nodiscard]] entries::Told told() const {
    entries::Told told{definition_.kind, {}};
    for (const entries::Field& candidate : fields_) {
      if (is_kept(candidate.name)) told.fields.push_back(candidate);
    }
    return told;
  }
  [[nodiscard]] const FieldDefinition& field(std::string_view role) const {
    const FieldDefinition* found = find_field(definition_, effect_.roles.find(role)->second);
    assert(found != nullptr);
    return *found;
  }

  [[nodiscard]] std::vector<entries::TakenLoad> loads() const {
    std::vector<entries::TakenLoad> loads;
    const auto* list = find<entries::List>("loads");
    if (list == nullptr) return loads;
    for (const entries::Record& row : list->rows) {
      const auto* container = cell<entries::Id>(row, "loads.container");
      const auto* emptied = cell<entries::Code>(row, "loads.emptied");
      assert(container != nullptr);
      loads.push_back({container->slug,
                       make_amount(cell<quantities::Quantity>(row, "loads.volume"),
                                   cell<quantities::Quantity>(row, "loads.mass")),
                       emptied != nullptr && emptied->slug == "yes"});
    }
    return loads;
  }

  /// Whole numbers by their bands, and not below 0.
  [[nodiscard]] std::vector<std::uint64_t> entry_numbers() const {
    constexpr std::int64_t kThousandths = 1000;
    std::vector<std::uint64_t> numbers;
    const auto* list = find<entries::List>("entries");
    assert(list != nullptr);
    for (const entries::Record& row : list->rows) {
      const auto* number = cell<quantities::Quantity>(row, "entries.number");
      assert(number != nullptr);
      numbers.push_back(static_cast<std::uint64_t>(number->value.thousandths / kThousandths));
    }
    return numbers;
  }

  /// Every field but those that say which thing and what is done to it.
  [[nodiscard]] entries::Fields attributes() const {
    entries::Fields attributes;
    const FieldDefinition& thing = field("thing");
    for (const entries::Field& candidate : fields_) {
      const bool says_which = candidate.name == thing.name || candidate.name == thing.class_field ||
                              candidate.name == field("act").name;
      if (!says_which) attributes.push_back(candidate);
    }
    return attributes;
  }

 private:
  [[nodiscard]] bool is_kept(const std::string& name) const {
    if (!effect_.keeps.empty()) {
      return std::find(effect_.keeps.begin(), effect_.keeps.end(), name) != effect_.keeps.end();
    }
    const FieldDefinition* candidate = find_field(definition_, name);
    return candidate != nullptr && !is_free_text(*candidate);
  }
  template <class T>
  [[nodiscard]] const T* find(std::string_view role) const {
    const auto mapped = effect_.roles.find(role);
    return mapped == effect_.roles.end() ? nullptr : find_field_as<T>(fields_, mapped->second);
  }
  template <class T>
  [[nodiscard]] const T* cell(const entries::Record& row, std::string_view role) const {
    const auto mapped = effect_.roles.find(role);
    return mapped == effect_.roles.end() ? nullptr : find_scalar_as<T>(row, mapped->second);
  }
  static entries::Amount make_amount(const quantities::Quantity* volume,
                                     const quantities::Quantity* mass) {
    entries::Amount amount;
    if (volume != nullptr) amount.volume = quantities::microlitres(*volume);
    if (mass != nullptr) amount.mass = quantities::milligrams(*mass);
    return amount;
  }

  const Definition& definition_;
  const EffectDefinition& effect_;
  const entries::Fields& fields_;
};

/// The meaning of a code that the catalog has checked against its role.
template <class T>
T known(const std::optional<T>& meaning) {
  assert(meaning.has_value());
  return *meaning;
}

entries::Effect make_effect(const std::string& name, const RoleReader& roles) {
  if (name == "adds") return entries::Adds{roles.id("container"), roles.amount()};
  if (name == "moves") return entries::Moves{roles.id("from"), roles.id("to"), roles.amount()};
  if (name == "reads") return entries::Reads{roles.id("container"), roles.amount()};
  if (name == "takes") {
    return entries::Takes{roles.id("collection"), known(collection_stage(roles.code("stage"))),
                          roles.id("carrier"), roles.text("document_number"), roles.loads()};
  }
  if (name == "checks") {
    const std::string code = roles.code("outcome");
    return entries::Checks{roles.thing_class("thing"), roles.id("thing"),
                           code.empty() ? entries::Outcome::kRecorded : known(outcome(code)),
                           roles.told()};
  }
  if (name == "changes") {
    return entries::Changes{roles.thing_class("thing"), roles.id("thing"),
                            known(register_act(roles.code("act"))), roles.attributes()};
  }
  if (name == "handles") {
    return entries::Handles{roles.id("container"), known(container_act(roles.code("act")))};
  }
  if (name == "confirms") {
    return entries::Confirms{roles.entry_numbers(), known(authorship(roles.code("authorship")))};
  }
  assert(name == "notes");
  if (!roles.plays("thing")) return entries::Notes{"", "", roles.told()};
  return entries::Notes{roles.thing_class("thing"), roles.id("thing"), roles.told()};
}

/// The subject an id field points at, or "" for a thing class that cannot be told.
std::string subject(const FieldDefinition& field, const std::string& id,
                    const entries::Fields& fields) {
  if (field.class_field.empty()) return field.thing_class + "/" + id;
  const auto* thing_class = find_field_as<entries::Code>(fields, field.class_field);
  return thing_class == nullptr ? std::string() : thing_class->slug + "/" + id;
}

}  // namespace

entries::Effect effect_of(const Definition& definition, const EffectDefinition& effect,
                          const entries::Fields& fields) {
  return make_effect(effect.effect, {definition, effect, fields});
}

entries::Effects effects_of(const Catalog& catalog, const entries::Content& content) {
  entries::Effects effects;
  const Definition* definition = catalog.find(content.kind);
  if (definition == nullptr) return effects;
  for (const EffectDefinition& effect : definition->effects) {
    if (!holds(effect.when, content.fields)) continue;
    effects.push_back(effect_of(*definition, effect, content.fields));
  }
  return effects;
}

std::vector<std::string> subjects_of(const Catalog& catalog, const entries::Content& content) {
  std::vector<std::string> subjects;
  const Definition* definition = catalog.find(content.kind);
  if (definition == nullptr) return subjects;
  for (const FieldDefinition& field : definition->fields) {
    if (const auto* id = find_field_as<entries::Id>(content.fields, field.name)) {
      subjects.push_back(subject(field, id->slug, content.fields));
    }
    const auto* list = find_field_as<entries::List>(content.fields, field.name);
    if (list == nullptr) continue;
    for (const FieldDefinition& column : field.columns) {
      for (const entries::Record& row : list->rows) {
        const auto* id = find_scalar_as<entries::Id>(row, column.name);
        if (id != nullptr) subjects.push_back(subject(column, id->slug, content.fields));
      }
    }
  }
  std::sort(subjects.begin(), subjects.end());
  subjects.erase(std::unique(subjects.begin(), subjects.end()), subjects.end());
  return subjects;
}

}  // namespace benchwarden::forms
