#pragma once

#include "base/json.h"
#include "base/result.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What must be kept until when by the rules in force, and the holds of authorities that stand.
/// This version keeps everything: nothing purges.
/// {"as_of", "holds": [{"entry", "authority", "scope"}], "kept": [{"rule", …, "entries":
/// [{"entry", "until"}]}]}, `until` null where there is no end yet: while a hold stands, and before
/// the waste an entry is about was shipped. Errors as rules_in_force.
base::Result<base::Json> show_retention(const Ports& ports);

}  // namespace benchwarden::workshop
