#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "base/toml.h"
#include "forms/catalog.h"

namespace benchwarden::demo {

struct Person {
  std::string name;
  std::string role;
  std::string pin;
  bool competent = false;
};

/// The persons of the demo and its things under care, as fields of register-change entries.
struct Inventory {
  std::vector<Person> persons;
  std::vector<base::JsonObject> things;
};

base::Result<Inventory, base::FileFaults> read_inventory(const std::string& path,
                                                         const forms::Catalog& catalog);

}  // namespace benchwarden::demo
