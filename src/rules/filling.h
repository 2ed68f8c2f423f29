#pragma once

#include <optional>
#include <string_view>

#include "calculations/fill_forecast.h"
#include "rules/scene.h"
#include "tallies/levels.h"

namespace benchwarden::rules {

/// How far a forecast looks back: 26 whole weeks.
inline constexpr int kFillHistoryDays = 182;

/// Why a container has no forecast.
enum class NoForecast {
  kNone,  ///< it has one
  kRetired,
  kSealed,
  kNoLimit,          ///< no working limit in the register
  kAtLimit,          ///< nothing more is to go in
  kTooFewDays,       ///< since the first addition
  kTooFewAdditions,  ///< in its whole weeks
  kOutOfRange,       ///< amounts that no workshop has
  kTooFar,           ///< not within a hundred years
};
/// The key of its sentence: "no-forecast-sealed" …; "" for kNone.
std::string_view says_of(NoForecast why);
/// "sealed", "too-few-days" …; "" for kNone.
std::string_view code_of(NoForecast why);

/// When a container comes to its working limit, as days of the workshop's zone: the earliest are
/// rounded down, the others up. None: the history does not bound that side.
struct Filling {
  NoForecast none = NoForecast::kTooFewDays;
  std::optional<base::CivilDate> earliest_95;  ///< one chance in forty that it is sooner
  std::optional<base::CivilDate> earliest_80;
  std::optional<base::CivilDate> median;
  std::optional<base::CivilDate> latest_80;
  std::optional<base::CivilDate> latest_95;
  double per_day = 0;  ///< in the smallest unit of what the stream is counted by
  calculations::RateChange rate_change = calculations::RateChange::kTooFewWeeks;
};

/// From what came in on each whole day before today. Additions of today are content, no history.
Filling filling_of(const Scene& scene, const tallies::Level& level);

}  // namespace benchwarden::rules
