#pragma once

#include <string_view>

#include "base/toml.h"
#include "forms/definition.h"

namespace benchwarden::forms {

/// Reads one definition file. What is wrong in itself (a missing or unknown member, a type, unit,
/// class, format or band that is none) goes to `faults` with its line; what concerns several parts
/// of a definition is for check_definition.
Definition read_definition(const base::Toml& toml, const std::string& file,
                           base::FileFaults& faults);

}  // namespace benchwarden::forms
