#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/civil_date.h"
#include "quantities/units.h"

namespace benchwarden::entries {

enum class FieldType { kQuantity, kId, kDate, kCode, kText, kList };

/// The id of a thing under care ("w1"). Which class it belongs to is the definition's to say.
struct Id {
  std::string slug;
  friend bool operator==(const Id&, const Id&) = default;
};
/// One of the codes a definition lists ("passed").
struct Code {
  std::string slug;
  friend bool operator==(const Code&, const Code&) = default;
};
struct Text {
  std::string text;
  friend bool operator==(const Text&, const Text&) = default;
};

using Scalar = std::variant<quantities::Quantity, Id, base::CivilDate, Code, Text>;
using Record = std::vector<std::pair<std::string, Scalar>>;
/// Rows of one shape: the containers of a collection, the points of a gauge.
struct List {
  std::vector<Record> rows;
  friend bool operator==(const List&, const List&) = default;
};

using FieldValue = std::variant<quantities::Quantity, Id, base::CivilDate, Code, Text, List>;

struct Field {
  std::string name;
  FieldValue value;
  friend bool operator==(const Field&, const Field&) = default;
};
/// The fields that were filled in, sorted by name (the order of the canonical bytes, so that an
/// entry read back from the book is the entry that was recorded). Columns of a row likewise.
using Fields = std::vector<Field>;

const FieldValue* find_field(const Fields& fields, std::string_view name);
template <class T>
const T* find_field_as(const Fields& fields, std::string_view name) {
  const FieldValue* value = find_field(fields, name);
  return value == nullptr ? nullptr : std::get_if<T>(value);
}
template <class T>
const T* find_scalar_as(const Record& record, std::string_view name) {
  for (const auto& [key, scalar] : record) {
    if (key == name) return std::get_if<T>(&scalar);
  }
  return nullptr;
}

}  // namespace benchwarden::entries
