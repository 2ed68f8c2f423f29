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
  inventory.things = workshop::read_filed_things(reader, catalog, faults);
  reader.finish();
  if (!faults.empty()) return faults;
  return inventory;
}

}  // namespace benchwarden::demo
