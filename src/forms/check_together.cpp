#include <map>
#include <string>

#include "forms/check_definition.h"

namespace benchwarden::forms {
namespace {

/// Where a name was first met.
struct FirstUse {
  const FieldDefinition* field = nullptr;
  const Definition* definition = nullptr;
};
using FirstUses = std::map<std::string, FirstUse, std::less<>>;

/// What differs between two fields of one name; "" when they mean the same.
std::string difference(const FieldDefinition& a, const FieldDefinition& b) {
  if (a.type != b.type) return "type";
  if (a.unit != b.unit) return "unit";
  if (a.thing_class != b.thing_class || a.class_field != b.class_field) return "class";
  if (a.options != b.options) return "options";
  if (a.format != b.format) return "format";
  return "";
}

void check_meaning(const FieldDefinition& field, const Definition& definition, FirstUses& uses,
                   base::FileFaults& faults) {
  const auto [found, is_new] = uses.try_emplace(field.name, FirstUse{&field, &definition});
  if (is_new) return;
  const FirstUse& first = found->second;
  const std::string what = difference(field, *first.field);
  if (!what.empty()) {
    faults.push_back({definition.file, field.line,
                      "field '" + field.name + "' has another " + what + " than in " +
                          first.definition->file + ":" + std::to_string(first.field->line)});
  }
}

/// A correction carries fields of any kind beside its own, so its own names are its alone.
void check_reserved(const std::vector<Definition>& definitions, base::FileFaults& faults) {
  for (const Definition& correction : definitions) {
    if (correction.kind != kCorrectionKind) continue;
    for (const Definition& other : definitions) {
      if (other.kind == kCorrectionKind) continue;
      for (const FieldDefinition& field : other.fields) {
        if (find_field(correction, field.name) == nullptr) continue;
        faults.push_back(
            {other.file, field.line, "field '" + field.name + "' belongs to corrections alone"});
      }
    }
  }
}

/// The codes that the register knows as competences; nullptr where it has no such list.
const FieldDefinition* competence_codes(const std::vector<Definition>& definitions) {
  for (const Definition& definition : definitions) {
    const FieldDefinition* list = find_field(definition, "competences");
    if (list != nullptr) return find_field(list->columns, "competence");
  }
  return nullptr;
}

/// Nobody could ever be entered with a competence that the register does not know.
void check_competences(const std::vector<Definition>& definitions, base::FileFaults& faults) {
  const FieldDefinition* known = competence_codes(definitions);
  for (const Definition& definition : definitions) {
    for (const EffectDefinition& effect : definition.effects) {
      if (effect.competence.empty()) continue;
      if (known != nullptr && has_option(*known, effect.competence)) continue;
      faults.push_back({definition.file, effect.line,
                        "competence '" + effect.competence + "' is not in the register's list" +
                            (known == nullptr ? "" : "; there are " + list_codes(*known))});
    }
  }
}

}  // namespace

void check_together(const std::vector<Definition>& definitions, base::FileFaults& faults) {
  std::map<std::string, std::string> kinds;
  FirstUses uses;
  for (const Definition& definition : definitions) {
    if (!kinds.try_emplace(definition.kind, definition.file).second) {
      faults.push_back({definition.file, 1, "kind '" + definition.kind + "' is defined twice"});
    }
    for (const FieldDefinition& field : definition.fields) {
      check_meaning(field, definition, uses, faults);
      for (const FieldDefinition& column : field.columns) {
        check_meaning(column, definition, uses, faults);
      }
    }
  }
  check_reserved(definitions, faults);
  check_competences(definitions, faults);
}

}  // namespace benchwarden::forms
