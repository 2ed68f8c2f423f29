#pragma once

#include "base/result.h"
#include "entries/entry.h"
#include "forms/catalog.h"

namespace benchwarden::forms {

/// Whether the fields play the roles that the effects of their kind cannot do without, which those
/// of a validated entry do. An entry written past the forms need not, under whatever hashes.
/// kDamaged names the field.
base::Status<> check_roles(const Catalog& catalog, const entries::Content& content);

}  // namespace benchwarden::forms
