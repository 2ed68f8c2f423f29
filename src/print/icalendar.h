#pragma once

#include <string>
#include <vector>

#include "base/civil_date.h"
#include "base/timestamp.h"

namespace benchwarden::print {

/// One thing of a day, for a calendar program.
struct CalendarItem {
  std::string uid;  ///< the same for the same thing at every fetch, and of no other
  base::CivilDate day;
  std::string summary;
  std::string description;     ///< empty: none is written
  base::Instant last_changed;  ///< when what the item says was last revised
};

/// The bytes of a calendar (RFC 5545, name and interval of fetching by RFC 7986): an event of the
/// whole day for each item, in the order given. No clock is read, so equal items give equal bytes.
/// Controls but the end of a line, and bytes that are no UTF-8, become U+FFFD.
std::string to_icalendar(const std::string& name, const std::vector<CalendarItem>& items);

}  // namespace benchwarden::print
