#pragma once

#include <map>
#include <string>
#include <vector>

#include "almanac.h"
#include "base/toml.h"
#include "forms/catalog.h"
#include "workshop/register_file.h"

namespace benchwarden::demo {

struct Person {
  std::string name;
  std::string role;
  std::string pin;
};
/// The ids by which the book knows the persons, by their names.
using PersonIds = std::map<std::string, std::string>;

/// The persons of the demo. `inventory` is the whole file; so below.
std::vector<Person> read_persons(const base::Toml& inventory, const std::string& file);

/// Its things under care, as in a file of the register, with their days filled in. The almanac
/// learns the opening days from them.
std::vector<workshop::FiledThing> read_things(const base::Toml& inventory, const std::string& file,
                                              const PersonIds& persons,
                                              const forms::Catalog& catalog, Almanac& almanac);

}  // namespace benchwarden::demo
