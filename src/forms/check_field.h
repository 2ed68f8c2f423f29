#pragma once

#include <string_view>
#include <vector>

#include "base/toml.h"
#include "forms/definition.h"

namespace benchwarden::forms {

/// One field, or one column of a list, against the fields that stand before it.
void check_field(const FieldDefinition& field, const Definition& definition,
                 base::FileFaults& faults);

/// Conditions that may name any code field of `definition` before `line` (0: any at all).
void check_conditions(const Conditions& conditions, const Definition& definition, int before_line,
                      int line, base::FileFaults& faults);

/// Lower-case words with underscores, 1 … 40 characters, and none of the names an entry's own
/// members have in a CSV file.
bool is_field_name(std::string_view name);

}  // namespace benchwarden::forms
