#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "forms/catalog.h"

// The words of the forms that a rule pack may name.

namespace benchwarden::workshop {

using FieldsNamed = std::vector<const forms::FieldDefinition*>;

class PackVocabulary {
 public:
  explicit PackVocabulary(const forms::Catalog& catalog);

  /// Classes of things that the register holds.
  [[nodiscard]] std::vector<std::string> things() const;
  /// Those, and what comes into being by an entry about it: events, collections.
  [[nodiscard]] std::vector<std::string> subjects() const;
  [[nodiscard]] std::vector<std::string> kinds() const;

  /// The field of the register of this name, where one of the classes has it; of any, where none
  /// is named.
  [[nodiscard]] FieldsNamed attribute(std::string_view name,
                                      const std::vector<std::string>& classes) const;
  /// The fields of this name of the kinds of entry.
  [[nodiscard]] FieldsNamed of_kinds(std::string_view name,
                                     const std::vector<std::string>& kinds) const;
  /// The fields of this name of any kind of entry.
  [[nodiscard]] FieldsNamed anywhere(std::string_view name) const;

 private:
  const forms::Catalog& catalog_;
  const forms::Definition* register_;
};

/// The codes of some fields, without repetition.
std::vector<std::string> codes_of(const FieldsNamed& fields);

}  // namespace benchwarden::workshop
