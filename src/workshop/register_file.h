#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/json.h"
#include "base/toml.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// A thing under care as a file describes it: a table [[thing]] with `class`, `id`, attributes of
/// the form register-change by their names, and where a value is unusual `confirmed`, the names of
/// such attributes. Values are written as filed_value reads them.
struct FiledThing {
  std::string thing_class;
  std::string id;
  base::JsonObject attributes;
  base::JsonArray confirmed;
  base::Toml table;  ///< where it stands
};

/// The things of one file, in its order; those without a class or an id are left out.
std::vector<FiledThing> read_filed_things(base::TomlReader& file, const forms::Catalog& catalog,
                                          base::FileFaults& faults);

/// A file that holds nothing else.
struct RegisterFile {
  std::vector<FiledThing> things;  ///< those that have a class and an id
  base::FileFaults faults;         ///< every fault of the file's form
};
RegisterFile read_register_file(std::string_view text, const forms::Catalog& catalog);

/// The fields of the entry that adds the thing, or changes it: `act` is "added" or "changed".
base::JsonObject register_fields(const FiledThing& thing, std::string_view act);

/// The line of what a refusal's pointer ("/fields/capacity_l") is about; that of the thing where
/// the file has no such place.
int line_of(const FiledThing& thing, std::string_view pointer);

/// The things put so that each comes after those of the list that it names, as a container its
/// stream; else in the order given.
std::vector<FiledThing> in_order_of_need(std::vector<FiledThing> things,
                                         const forms::Catalog& catalog);

}  // namespace benchwarden::workshop
