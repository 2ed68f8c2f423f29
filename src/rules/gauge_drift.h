#pragma once

#include <vector>

#include "findings/gauge_course.h"
#include "rules/gauge_facts.h"

namespace benchwarden::rules {

bool was_adjusted(const std::vector<GaugePoint>& points);

/// When the errors as found of a gauge meet the limit of its class, by the line through its
/// inspections since the last adjustment, at the pressure whose error takes most of its limit. What
/// the rule kind gauge-drift and the history of a gauge both tell.
base::Result<findings::GaugeForecast, findings::Untold> gauge_forecast(
    const Scene& scene, const findings::Subject& gauge);

}  // namespace benchwarden::rules
