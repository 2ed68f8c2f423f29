#include "reports/course_json.h"

#include <cmath>

namespace benchwarden::reports {
namespace {

using findings::GasLoss;

base::Json rounded(double value) { return base::Decimal{thousandths_of(value)}; }
base::Json rounded(const std::optional<double>& value) {
  return value ? rounded(*value) : base::Json();
}

base::Json loss_json(const GasLoss& loss, const base::Zone& zone) {
  return base::JsonObject{{"since_entry", loss.since_entry},
                          {"since", base::format_rfc3339(zone.local(loss.since))},
                          {"logged_use_kg", rounded(loss.logged_use.si())},
                          {"loss_kg", rounded(loss.loss.si())},
                          {"expanded_uncertainty_kg", rounded(loss.expanded_uncertainty.si())},
                          {"verdict", loss.verdict}};
}

}  // namespace

std::int64_t thousandths_of(double value) { return std::llround(value * 1000); }

base::JsonObject course_json(const findings::CylinderMoment& moment, const base::Zone& zone) {
  base::JsonObject json;
  if (moment.content && moment.content->ok()) {
    json.emplace_back("content_kg", rounded((*moment.content)->mass.si()));
    json.emplace_back("content_m3", rounded((*moment.content)->volume.si()));
  } else if (moment.content) {
    json.emplace_back("content_untold", code_of(moment.content->error()));
  }
  if (moment.used && moment.used->ok()) {
    json.emplace_back("used_kg", rounded((*moment.used)->si()));
  } else if (moment.used) {
    json.emplace_back("used_untold", code_of(moment.used->error()));
  }
  if (moment.loss && moment.loss->ok()) {
    json.emplace_back("loss", loss_json(**moment.loss, zone));
  } else if (moment.loss) {
    json.emplace_back("loss_untold", code_of(moment.loss->error()));
  }
  if (moment.beyond) json.emplace_back("loss_found", loss_json(*moment.beyond, zone));
  return json;
}

base::JsonObject course_json(const findings::GaugeMoment& moment) {
  base::JsonArray points;
  for (const findings::GaugeError& point : moment.points) {
    points.emplace_back(base::JsonObject{{"reference_bar", rounded(point.reference)},
                                         {"as_found_bar", rounded(point.as_found)},
                                         {"as_left_bar", rounded(point.as_left)},
                                         {"error_bar", rounded(point.as_found - point.reference)},
                                         {"limit_bar", rounded(point.limit)},
                                         {"beyond_limit", point.beyond}});
  }
  return {{"adjusted", moment.adjusted}, {"points", std::move(points)}};
}

base::Json forecast_json(const base::Result<findings::GaugeForecast, findings::Untold>& forecast) {
  if (!forecast) return base::JsonObject{{"untold", code_of(forecast.error())}};
  base::JsonArray inspections;
  for (const std::uint64_t entry : forecast->inspections) inspections.emplace_back(entry);
  return base::JsonObject{{"reference_bar", rounded(forecast->reference)},
                          {"error_bar", rounded(forecast->error)},
                          {"limit_bar", rounded(forecast->limit)},
                          {"inspections", std::move(inspections)},
                          {"leaves", base::format_date(forecast->leaves)}};
}

}  // namespace benchwarden::reports
