#pragma once

#include <array>
#include <optional>
#include <vector>

#include "base/civil_date.h"

namespace benchwarden::calculations {

/// The same day so many calendar months on; the last day of the month where it has no such day.
/// 31 January and one month: 28 or 29 February; 29 February and twelve months: 28 February.
/// 0 <= months <= 1200; asserted. None after the year 9999, the last of base::CivilDate.
std::optional<base::CivilDate> add_months(base::CivilDate date, int months);
/// So many days on, 0 <= days; none after the year 9999.
std::optional<base::CivilDate> days_after(base::CivilDate date, int days);

/// A test stamped with a month holds to the end of the same month so many years on (49 CFR
/// 180.209(a) and the wording of ADR P200: month and year of the test). None after the year 9999.
std::optional<base::CivilMonth> stamp_due(base::CivilMonth last_test, int interval_years);

/// What may be done with a cylinder on a day, by its stamp (49 CFR 180.205(c)).
enum class StampState {
  kCurrent,         ///< the month has not passed
  kEmptyThenTest,   ///< passed, and filled before that: may be used until empty, not refilled
  kTestBeforeFill,  ///< passed, and not known to have been filled before that: not to be refilled
};
StampState stamp_state(base::CivilMonth due, base::CivilDate today,
                       std::optional<base::CivilDate> filled_on);

/// When a workshop is open.
struct OpeningDays {
  std::array<bool, 7> open{};           ///< Monday first
  std::vector<base::CivilDate> closed;  ///< days off besides, sorted
};
bool is_open(const OpeningDays& days, base::CivilDate date);
/// The first open day on or after `date`; none within 366 days or before the year 10000.
std::optional<base::CivilDate> next_open(const OpeningDays& days, base::CivilDate date);
/// The day so many open days after `date`, which itself does not count; none when the workshop
/// opens too seldom to get there within 3660 days.
std::optional<base::CivilDate> add_open_days(const OpeningDays& days, base::CivilDate date,
                                             int count);

}  // namespace benchwarden::calculations
