#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "forms/catalog.h"

namespace benchwarden::forms {

/// JSON Schema 2020-12 of a submission of this kind (OpenAPI 3.1 component). It states types,
/// ranges, codes and conditions; what needs the register or the clock is the validator's alone. A
/// correction's `fields` are open, since they are those of the kind it corrects.
base::Json submission_schema(const Definition& definition);
/// JSON Schema of the fields as they come back from the book: older entries may hold retired
/// fields and lack newer ones, so nothing but types and codes is stated.
base::Json fields_schema(const Definition& definition);
/// The definition for the app: labels, units, bands, options, order (GET /forms/{kind}).
/// `cautions` holds ids; the caller puts the words in.
base::Json definition_json(const Definition& definition);
/// Column names of this kind's CSV: the members of every entry, then the fields in the order of
/// the form, without those of a correction's target. A list is one column.
std::vector<std::string> csv_columns(const Definition& definition);

}  // namespace benchwarden::forms
