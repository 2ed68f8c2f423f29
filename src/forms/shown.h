#pragma once

#include <string>

#include "base/json.h"
#include "forms/definition.h"

namespace benchwarden::forms {

// How refusals show what was given and what would be accepted: in values, codes and signs, no
// words. The sentence around them stands in forms/wording.

/// The value as text, cut after 60 code points.
std::string shown_value(const base::Json& value);
/// "1 … 20000 mL"
std::string shown_band(const Band& band, const quantities::Unit& unit);
/// "bin_act = emptied, added"
std::string shown_conditions(const Conditions& conditions);
/// What the field takes: its band, codes, shape or length.
std::string shown_accepted(const FieldDefinition& field);

}  // namespace benchwarden::forms
