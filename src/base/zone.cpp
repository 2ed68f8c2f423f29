#include "base/zone.h"

#include <date/tz.h>

#include <chrono>
#include <stdexcept>

namespace benchwarden::base {
namespace {

using Milliseconds = std::chrono::milliseconds;

date::sys_time<Milliseconds> to_sys(Instant instant) {
  return date::sys_time<Milliseconds>{Milliseconds{instant.ms}};
}

date::sys_info info_at(const date::time_zone& zone, Instant instant) {
  return zone.get_info(to_sys(instant));
}

}  // namespace

Result<Zone> Zone::find(std::string_view name) {
  try {
    return Zone(date::locate_zone(std::string(name)));
  } catch (const std::runtime_error&) {
    return Error{ErrorCode::kNotFound,
                 "'" + std::string(name) + "' is not a time zone of this system"};
  }
}

std::string Zone::name() const { return zone_->name(); }

Timestamp Zone::local(Instant instant) const {
  const auto offset =
      std::chrono::duration_cast<std::chrono::minutes>(info_at(*zone_, instant).offset);
  return {instant, static_cast<int>(offset.count())};
}

CivilDate Zone::date_of(Instant instant) const {
  const auto local = zone_->to_local(to_sys(instant));
  const date::year_month_day ymd{date::floor<date::days>(local)};
  return {static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
          static_cast<int>(static_cast<unsigned>(ymd.day()))};
}

CivilMonth Zone::month_of(Instant instant) const { return base::month_of(date_of(instant)); }

Instant Zone::start_of(CivilDate day) const {
  const date::local_days midnight{date::year{day.year} /
                                  date::month{static_cast<unsigned>(day.month)} /
                                  date::day{static_cast<unsigned>(day.day)}};
  // choose::earliest gives the first of two midnights, and the end of the gap where the clock
  // skips midnight.
  const auto instant =
      zone_->to_sys(date::local_time<Milliseconds>{midnight}, date::choose::earliest);
  return Instant{instant.time_since_epoch().count()};
}

Instant Zone::start_of(CivilMonth month) const { return start_of(first_day(month)); }

std::string Zone::wall_clock(Instant instant) const {
  const std::string text = format_rfc3339(local(instant));
  const std::string offset = text.back() == 'Z' ? "+00:00" : text.substr(text.size() - 6);
  return text.substr(0, 10) + " " + text.substr(11, 5) + " " + offset;
}

}  // namespace benchwarden::base
