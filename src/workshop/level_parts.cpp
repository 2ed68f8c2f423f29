#include "workshop/level_parts.h"

#include <cmath>
#include <string>

namespace benchwarden::workshop {
namespace {

base::Json day_or_null(const std::optional<base::CivilDate>& day) {
  return day ? base::Json(base::format_date(*day)) : base::Json(nullptr);
}

std::string_view rate_word(calculations::RateChange change) {
  if (change == calculations::RateChange::kSeen) return "changed";
  return change == calculations::RateChange::kNotSeen ? "no-change-seen" : "too-few-weeks";
}

}  // namespace

std::string_view amount_suffix(const tallies::StreamFacts& stream) {
  return stream.counted_by == tallies::CountedBy::kVolume ? "_ml" : "_kg";
}

base::Json amount_json(const tallies::StreamFacts& stream, std::int64_t amount) {
  if (stream.counted_by == tallies::CountedBy::kVolume) {
    return quantities::in_millilitres(quantities::Microlitres(amount));
  }
  return quantities::in_kilograms(quantities::Milligrams(amount));
}

base::Json stream_json(const tallies::StreamFacts& stream) {
  return base::JsonObject{
      {"id", stream.id},
      {"name", stream.name},
      {"low_code", stream.low_code},
      {"hazardous", stream.hazardous},
      {"counted_by", stream.counted_by == tallies::CountedBy::kVolume ? "volume" : "mass"}};
}

base::Json forecast_json(const tallies::StreamFacts& stream, const rules::Filling& filling) {
  const bool known = filling.none == rules::NoForecast::kNone;
  const std::string a_day = "a_day" + std::string(amount_suffix(stream));
  const auto amount = static_cast<std::int64_t>(std::llround(filling.per_day));
  return base::JsonObject{
      {"none_because", known ? base::Json(nullptr) : base::Json(rules::code_of(filling.none))},
      {"earliest_95", day_or_null(filling.earliest_95)},
      {"earliest_80", day_or_null(filling.earliest_80)},
      {"median", day_or_null(filling.median)},
      {"latest_80", day_or_null(filling.latest_80)},
      {"latest_95", day_or_null(filling.latest_95)},
      {"rate", known ? base::Json(rate_word(filling.rate_change)) : base::Json(nullptr)},
      {a_day, known ? amount_json(stream, amount) : base::Json(nullptr)}};
}

}  // namespace benchwarden::workshop
