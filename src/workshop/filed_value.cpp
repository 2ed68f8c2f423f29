#include "workshop/filed_value.h"

#include <utility>

namespace benchwarden::workshop {
namespace {

bool looks_like_number(const std::string& text) {
  return !text.empty() && text.find_first_not_of("-.0123456789") == std::string::npos;
}

}  // namespace

base::Json filed_value(const base::Toml& value, const std::string& name,
                       const forms::Catalog& catalog) {
  switch (value.type) {
    case base::Toml::Type::kInteger:
      return value.integer;
    case base::Toml::Type::kBoolean:
      return value.boolean;
    case base::Toml::Type::kArray: {
      base::JsonArray items;
      for (const base::Toml& item : value.items) items.push_back(filed_value(item, name, catalog));
      return items;
    }
    case base::Toml::Type::kTable: {
      base::JsonObject members;
      for (const auto& [key, member] : value.members) {
        // A quantity in a unit of its own is a number like the quantity itself.
        members.emplace_back(key, filed_value(member, key == "value" ? name : key, catalog));
      }
      return members;
    }
    case base::Toml::Type::kText:
      break;
  }
  const auto meaning = catalog.meaning(name);
  const bool number = meaning && meaning->type == entries::FieldType::kQuantity;
  if (number && looks_like_number(value.text)) return base::JsonNumber{value.text};
  return value.text;
}

}  // namespace benchwarden::workshop
