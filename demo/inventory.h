#pragma once

#include <string>
#include <vector>

#include "base/toml.h"
#include "forms/catalog.h"
#include "workshop/register_file.h"

namespace benchwarden::demo {

struct Person {
  std::string name;
  std::string role;
  std::string pin;
  bool competent = false;
};

/// The persons of the demo, and its things under care in the form of a register file.
struct Inventory {
  std::vector<Person> persons;
  std::vector<workshop::FiledThing> things;
};

base::Result<Inventory, base::FileFaults> read_inventory(const std::string& path,
                                                         const forms::Catalog& catalog);

}  // namespace benchwarden::demo
