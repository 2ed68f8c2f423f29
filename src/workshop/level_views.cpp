#include <algorithm>

#include "tallies/levels.h"
#include "workshop/level_parts.h"
#include "workshop/seen_from.h"
#include "workshop/views.h"

namespace benchwarden::workshop {
namespace {

using base::Json;
using base::JsonObject;

Json time_or_null(const base::Zone& zone, const std::optional<base::Instant>& instant) {
  return instant ? Json(base::format_rfc3339(zone.local(*instant))) : Json(nullptr);
}

Json reading_json(const base::Zone& zone, const tallies::Level& level) {
  if (!level.last_reading) return nullptr;
  const tallies::Reading& reading = *level.last_reading;
  const std::string suffix(amount_suffix(level.stream));
  return JsonObject{{"at", base::format_rfc3339(zone.local(reading.at))},
                    {"reading" + suffix, amount_json(level.stream, reading.reading)},
                    {"logged" + suffix, amount_json(level.stream, reading.logged)},
                    {"seq", reading.seq}};
}

Json level_json(const base::Zone& zone, const tallies::Level& level,
                const rules::Filling& filling) {
  JsonObject json{
      {"container", level.container},
      {"name", level.name},
      {"stream", stream_json(level.stream)},
      {"volume_ml", level.volume ? Json(quantities::in_millilitres(*level.volume)) : Json(nullptr)},
      {"mass_kg", level.mass ? Json(quantities::in_kilograms(*level.mass)) : Json(nullptr)},
      {"working_limit_ml", nullptr},
      {"working_limit_kg", nullptr},
      {"working_limit_used_percent", level.fraction_permille
                                         ? Json(base::Decimal{*level.fraction_permille * 100})
                                         : Json(nullptr)},
      {"oldest_content_at", time_or_null(zone, level.oldest_content)},
      {"sealed", level.sealed},
      {"retired", level.retired},
      {"last_reading", reading_json(zone, level)},
      {"forecast", forecast_json(level.stream, filling)}};
  if (level.working_limit > 0) {
    const std::string name = "working_limit" + std::string(amount_suffix(level.stream));
    for (auto& [key, value] : json) {
      if (key == name) value = amount_json(level.stream, level.working_limit);
    }
  }
  return json;
}

}  // namespace

base::Result<Json> show_levels(const Ports& ports, const std::optional<Viewpoint>& view) {
  const base::Instant now = ports.clock.now();
  const auto render = [now](const tallies::State& state, base::Instant as_of) {
    const base::Zone zone = zone_of(state);
    const rules::Scene scene(state, std::min(as_of, now), zone);
    base::JsonArray levels;
    // What is to be left out of the state is out of it already.
    for (const tallies::Level& level : tallies::levels(state, base::Instant{INT64_MAX})) {
      levels.push_back(level_json(zone, level, rules::filling_of(scene, level)));
    }
    return Json(JsonObject{{"as_of", base::format_rfc3339(zone.local(std::min(as_of, now)))},
                           {"book_size", state.size()},
                           {"levels", std::move(levels)}});
  };
  return seen_from(ports, view, render);
}

}  // namespace benchwarden::workshop
