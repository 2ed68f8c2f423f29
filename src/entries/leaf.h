#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/json.h"
#include "base/result.h"
#include "entries/entry.h"

namespace benchwarden::entries {

/// What a field name means. A name has one type and one unit in every kind and every version, so
/// that any leaf can be read without its form; the forms see to that when they are loaded.
struct FieldMeaning {
  FieldType type = FieldType::kText;
  const quantities::Unit* unit = nullptr;  ///< for kQuantity
};

class Vocabulary {
 public:
  virtual ~Vocabulary() = default;
  [[nodiscard]] virtual std::optional<FieldMeaning> meaning(std::string_view field) const = 0;

 protected:
  Vocabulary() = default;
  Vocabulary(const Vocabulary&) = default;
  Vocabulary& operator=(const Vocabulary&) = default;
  Vocabulary(Vocabulary&&) = default;
  Vocabulary& operator=(Vocabulary&&) = default;
};

/// The entry as JSON, members in the order of DEVELOPERS.md.
base::Json entry_json(const Entry& entry);
base::Json fields_json(const Fields& fields);

/// The leaf of the tree: RFC 8785 bytes of the whole entry. The grammar is in DEVELOPERS.md.
std::string write_leaf(const Entry& entry);

/// kDamaged when the bytes are not exactly what `write_leaf` would write for what they say.
base::Result<Entry> read_leaf(std::string_view leaf, const Vocabulary& vocabulary);

}  // namespace benchwarden::entries
