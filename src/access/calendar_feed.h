#pragma once

#include <cstdint>

#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// Whoever knows the secret of the person's feed cannot read it any more. Done, too, if there is
/// none.
base::Status<> drop_calendar_feed(sqlite::Database& database, std::int64_t person);

}  // namespace benchwarden::access
