#pragma once

#include <array>
#include <string_view>
#include <utility>

#include "entries/field_value.h"

namespace benchwarden::forms {

/// The types of fields, as definitions name them.
inline constexpr std::array<std::pair<std::string_view, entries::FieldType>, 6> kTypeNames{{
    {"quantity", entries::FieldType::kQuantity},
    {"id", entries::FieldType::kId},
    {"date", entries::FieldType::kDate},
    {"code", entries::FieldType::kCode},
    {"text", entries::FieldType::kText},
    {"list", entries::FieldType::kList},
}};

constexpr std::string_view type_name(entries::FieldType type) {
  for (const auto& [name, named] : kTypeNames) {
    if (named == type) return name;
  }
  return "";
}

}  // namespace benchwarden::forms
