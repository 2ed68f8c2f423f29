#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/data_file.h"
#include "base/toml.h"
#include "entries/leaf.h"
#include "forms/definition.h"

namespace benchwarden::forms {

/// All kinds of entry, type-checked: names mean one thing in every kind, roles fit their effects,
/// conditions name earlier code fields, bands are in order. A fault anywhere stops the start with
/// file, line and reason; all of them at once, except that a file that cannot be read as a
/// definition is not checked further.
class Catalog : public entries::Vocabulary {
 public:
  static base::Result<Catalog, base::FileFaults> load(const base::DataFiles& files);

  [[nodiscard]] const Definition* find(std::string_view kind) const;
  [[nodiscard]] const std::vector<Definition>& definitions() const { return definitions_; }
  /// The label of an option of a code field or column; the code itself where no form has it.
  [[nodiscard]] std::string_view label_of(std::string_view field, std::string_view code) const;
  [[nodiscard]] std::optional<entries::FieldMeaning> meaning(std::string_view field) const override;

 private:
  Catalog() = default;
  std::vector<Definition> definitions_;  ///< sorted by kind
  std::map<std::string, entries::FieldMeaning, std::less<>> meanings_;
};

}  // namespace benchwarden::forms
