#pragma once

#include "base/json.h"
#include "base/zone.h"
#include "findings/cylinder_course.h"
#include "findings/gauge_course.h"

namespace benchwarden::reports {

/// A calculated value in thousandths of its unit, ties away from zero; the only rounding it gets.
std::int64_t thousandths_of(double value);

/// The figures of one entry, rounded to 0.001 of the unit in their names. What cannot be told has
/// its reason instead: "content_untold", "used_untold", "loss_untold".
base::JsonObject course_json(const findings::CylinderMoment& moment, const base::Zone& zone);
base::JsonObject course_json(const findings::GaugeMoment& moment);
/// {"reference_bar", …, "leaves"}, or {"untold"} with the reason.
base::Json forecast_json(const base::Result<findings::GaugeForecast, findings::Untold>& forecast);

}  // namespace benchwarden::reports
