#include "entries/field_value.h"

namespace benchwarden::entries {

const FieldValue* find_field(const Fields& fields, std::string_view name) {
  for (const Field& field : fields) {
    if (field.name == name) return &field.value;
  }
  return nullptr;
}

}  // namespace benchwarden::entries
