#include "workshop/pack_vocabulary.h"

#include <algorithm>

namespace benchwarden::workshop {
namespace {

constexpr std::string_view kClassField = "thing_class";

void add(std::vector<std::string>& words, const std::string& word) {
  if (word.empty() || std::find(words.begin(), words.end(), word) != words.end()) return;
  words.push_back(word);
}

/// Whether the conditions let a thing of one of the classes have the field.
bool is_of(const forms::FieldDefinition& field, const std::vector<std::string>& classes) {
  return std::all_of(field.when.begin(), field.when.end(), [&](const forms::Condition& condition) {
    if (condition.field != kClassField || classes.empty()) return true;
    return std::any_of(classes.begin(), classes.end(), [&](const std::string& one) {
      return std::find(condition.codes.begin(), condition.codes.end(), one) !=
             condition.codes.end();
    });
  });
}

}  // namespace

PackVocabulary::PackVocabulary(const forms::Catalog& catalog)
    : catalog_(catalog), register_(catalog.find("register-change")) {}

std::vector<std::string> PackVocabulary::things() const {
  if (register_ == nullptr) return {};
  const forms::FieldDefinition* field = find_field(*register_, kClassField);
  return field == nullptr ? std::vector<std::string>() : codes_of({field});
}

std::vector<std::string> PackVocabulary::subjects() const {
  std::vector<std::string> found = things();
  for (const forms::Definition& definition : catalog_.definitions()) {
    for (const forms::FieldDefinition& field : definition.fields) add(found, field.thing_class);
  }
  return found;
}

std::vector<std::string> PackVocabulary::kinds() const {
  std::vector<std::string> found;
  for (const forms::Definition& definition : catalog_.definitions()) add(found, definition.kind);
  return found;
}

FieldsNamed PackVocabulary::attribute(std::string_view name,
                                      const std::vector<std::string>& classes) const {
  if (register_ == nullptr) return {};
  const forms::FieldDefinition* field = find_field(*register_, name);
  if (field == nullptr || !is_of(*field, classes)) return {};
  return {field};
}

FieldsNamed PackVocabulary::of_kinds(std::string_view name,
                                     const std::vector<std::string>& kinds) const {
  FieldsNamed found;
  for (const std::string& kind : kinds) {
    const forms::Definition* definition = catalog_.find(kind);
    if (definition == nullptr) continue;
    if (const auto* field = find_field(*definition, name)) found.push_back(field);
  }
  return found;
}

FieldsNamed PackVocabulary::anywhere(std::string_view name) const {
  return of_kinds(name, kinds());
}

std::vector<std::string> codes_of(const FieldsNamed& fields) {
  std::vector<std::string> found;
  for (const forms::FieldDefinition* field : fields) {
    for (const forms::CodeOption& option : field->options) add(found, option.code);
  }
  return found;
}

}  // namespace benchwarden::workshop
