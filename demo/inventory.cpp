#include "inventory.h"

#include <fstream>
#include <iterator>
#include <utility>

namespace benchwarden::demo {
namespace {

Person read_person(const base::Toml& table, const std::string& file, base::FileFaults& faults) {
  base::TomlReader reader(table, file, faults);
  Person person{reader.text("name"), reader.text("role"), reader.text("pin"),
                reader.boolean_or("competent", false)};
  reader.finish();
  return person;
}

base::JsonObject read_thing(const base::Toml& table, const forms::Catalog& catalog) {
  base::JsonObject fields{{"act", "added"}};
  for (const auto& [name, value] : table.members) {
    if (name == "class") {
      fields.emplace_back("thing_class", value.text);
    } else if (name == "id") {
      fields.emplace_back("thing", value.text);
    } else {
      const auto meaning = catalog.meaning(name);
      const bool number = meaning && meaning->type == entries::FieldType::kQuantity;
      fields.emplace_back(
          name, number ? base::Json(base::JsonNumber{value.text}) : base::Json(value.text));
    }
  }
  return fields;
}

}  // namespace

base::Result<Inventory, base::FileFaults> read_inventory(const std::string& path,
                                                         const forms::Catalog& catalog) {
  std::ifstream stream(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  const auto parsed = base::parse_toml(text, path);
  if (!parsed) return parsed.error();
  base::FileFaults faults;
  base::TomlReader reader(*parsed, path, faults);
  Inventory inventory;
  for (const base::Toml* table : reader.tables("person")) {
    inventory.persons.push_back(read_person(*table, path, faults));
  }
  for (const base::Toml* table : reader.tables("thing")) {
    inventory.things.push_back(read_thing(*table, catalog));
  }
  reader.finish();
  if (!faults.empty()) return faults;
  return inventory;
}

}  // namespace benchwarden::demo
