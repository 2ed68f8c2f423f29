#pragma once

#include <vector>

#include "base/civil_date.h"
#include "base/json.h"
#include "base/result.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// The months from the first in which something happened to a container to the running one, newest
/// first: {"today", "book_size", "months": [{"month", "over", "hazardous_total", "other_total",
/// "closed"}]}. `closed` says by which entry, by whom and when, and how many entries of the month
/// were recorded or corrected since. Errors: those of the book.
base::Result<base::Json> show_months(const Ports& ports);

/// The figures of one month as they would be signed now: {"book_size", "figures_digest", "month",
/// "over", "streams", "hazardous_total", "other_total", "closed"}. kNotFound for a month that has
/// not begun.
base::Result<base::Json> show_month(const Ports& ports, base::CivilMonth month);

/// The same months, newest first, as far as they have been over for a whole day: what tablets still
/// held at midnight has had time to come in.
std::vector<base::CivilMonth> months_over(const Ports& ports);

}  // namespace benchwarden::workshop
