#pragma once

#include <string>
#include <string_view>

#include "base/civil_date.h"
#include "base/result.h"
#include "base/timestamp.h"

namespace date {
class time_zone;
}

namespace benchwarden::base {

/// An IANA time zone of the system's zone data. Month and day boundaries of the workshop are
/// those of its zone. Cheap to copy; the zone data lives as long as the process.
class Zone {
 public:
  /// kNotFound for a name the system's zone data does not hold.
  static Result<Zone> find(std::string_view name);

  [[nodiscard]] std::string name() const;
  [[nodiscard]] CivilDate date_of(Instant instant) const;
  [[nodiscard]] CivilMonth month_of(Instant instant) const;
  /// The first instant of the day; where the clock skips midnight, the first instant after it.
  [[nodiscard]] Instant start_of(CivilDate date) const;
  [[nodiscard]] Instant start_of(CivilMonth month) const;
  /// The instant with the offset in force in this zone.
  [[nodiscard]] Timestamp local(Instant instant) const;
  /// "2026-11-25 14:03 +01:00", for people.
  [[nodiscard]] std::string wall_clock(Instant instant) const;

 private:
  explicit Zone(const date::time_zone* zone) : zone_(zone) {}
  const date::time_zone* zone_;
};

}  // namespace benchwarden::base
