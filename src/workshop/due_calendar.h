#pragma once

#include <string>

#include "base/result.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// What is due as the bytes of an iCalendar file, in the order of `due_items`, whose errors it has.
/// The same book gives the same bytes: no clock is in them.
base::Result<std::string> due_calendar(const Ports& ports);

}  // namespace benchwarden::workshop
