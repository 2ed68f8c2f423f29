#pragma once

#include <string>

#include "base/json.h"
#include "entries/refusal.h"
#include "forms/definition.h"

namespace benchwarden::forms {

// How refusals show what was given and what would be accepted: in values, codes and signs, no
// words. The sentence around them stands in forms/wording; "{characters}", "{rows}" and "{to}" are
// filled in from its labels.

/// How to refuse a value that is no JSON number: kTextForNumber or kNotANumber.
entries::RefusalCode no_number(const base::Json& value);
/// The value as text, cut after 60 code points.
std::string shown_value(const base::Json& value);
/// "205 000 mL", digits in threes
std::string shown_amount(base::Decimal value, const quantities::Unit& unit);
/// The same of a number that may have more places than a stored one.
std::string shown_amount(std::string_view number, const quantities::Unit& unit);
/// "1 … 20 000 mL"
std::string shown_band(const Band& band, const quantities::Unit& unit);
/// "5 000"
std::string shown_number(base::Decimal value);
/// "What was done = Emptied into a drum, Rags added": by the labels of the fields
std::string shown_conditions(const Conditions& conditions,
                             const std::vector<FieldDefinition>& fields);
/// "Volume, Mass": the labels of these fields
std::string shown_labels(const std::vector<std::string>& names,
                         const std::vector<FieldDefinition>& fields);
/// "volume_ml, mass_kg": what may be named, as it is sent
std::string shown_names(const std::vector<FieldDefinition>& fields);
/// What the field takes: its band, codes, shape or length.
std::string shown_accepted(const FieldDefinition& field);
/// "1 … 80 {characters}"
std::string shown_length(std::size_t max);

}  // namespace benchwarden::forms
