#pragma once

#include <functional>
#include <optional>

#include "base/json.h"
#include "base/result.h"
#include "workshop/fold.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// Renders the state as it is now, or as seen from a viewpoint: then with the moment that is asked
/// for, else with the end of time, so that what a tablet whose clock runs ahead has recorded a
/// moment ago is seen. kUnavailable: a viewpoint, and too many such questions are being answered.
base::Result<base::Json> seen_from(
    const Ports& ports, const std::optional<Viewpoint>& view,
    const std::function<base::Result<base::Json>(const tallies::State&, base::Instant as_of)>&
        render);

}  // namespace benchwarden::workshop
