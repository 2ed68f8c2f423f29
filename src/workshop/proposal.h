#pragma once

#include "base/json.h"
#include "base/result.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What to hand over, by when and why: {"today", "window_days", "handovers": [{"day", "loads":
/// [{"container", "name", "stream", "day", "now_…", "expected_…", "expected_mass_kg", "planned_in",
/// "reasons", "forecast"}]}], "undated": [{"container", "name", "sentence"}]}. `window_days` is
/// null and all is empty where the site's pack has turned the rule off.
base::Result<base::Json> show_proposal(const Ports& ports);

}  // namespace benchwarden::workshop
