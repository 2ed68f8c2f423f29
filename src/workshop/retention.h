#pragma once

#include <optional>
#include <string_view>

#include "base/json.h"
#include "base/result.h"
#include "workshop/fold.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What must be kept until when by the rules in force, and the holds of authorities that stand.
/// This version keeps everything: nothing purges.
/// {"as_of", "holds": [{"entry", "authority", "scope"}], "kept": [{"rule", …, "entries":
/// [{"entry", "until"}]}]}, `until` null where there is no end yet: while a hold stands, and before
/// the waste an entry is about was shipped. As it is now, or from a viewpoint when one is given.
/// Errors as rules_in_force and seen_from.
base::Result<base::Json> show_retention(const Ports& ports, const std::optional<Viewpoint>& view);

/// Whether something keeps the name of a person who signed entries: a hold that stands, or an entry
/// in their name that is to be kept beyond today. kConflict, saying which; errors as
/// rules_in_force.
base::Status<> check_may_forget(const Ports& ports, std::string_view person);

}  // namespace benchwarden::workshop
