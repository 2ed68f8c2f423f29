#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/toml.h"
#include "forms/definition.h"

namespace benchwarden::forms {

FieldDefinition read_field(const base::Toml& toml, const std::string& file,
                           base::FileFaults& faults);
/// `name = [{ code = "…", label = "…" }]`
std::vector<CodeOption> read_options(std::string_view name, base::TomlReader& reader,
                                     base::FileFaults& faults);
/// `name = [{ field = "…", codes = ["…"] }]`
Conditions read_conditions(std::string_view name, base::TomlReader& reader,
                           base::FileFaults& faults);
/// `[[at_least_one]]` of a form or of a list field.
std::vector<AtLeastOne> read_at_least_one(base::TomlReader& reader, base::FileFaults& faults);

}  // namespace benchwarden::forms
