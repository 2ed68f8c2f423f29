#pragma once

#include <string>

#include "base/json.h"
#include "base/toml.h"
#include "forms/catalog.h"

namespace benchwarden::workshop {

/// The value of a field as a TOML file writes it, as a submission would hold it. A quantity is
/// written as text or as a whole number, so that it stays exact; in another unit than the form's
/// as { value = "2900", unit = "psi" }.
base::Json filed_value(const base::Toml& value, const std::string& name,
                       const forms::Catalog& catalog);

}  // namespace benchwarden::workshop
