#pragma once

#include <cstdint>
#include <optional>

#include "access/inspection.h"
#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// The access that was given to the person and has not ended; begun or not.
base::Result<std::optional<Inspection>> given_inspection(sqlite::Database& database,
                                                         std::int64_t person, base::Instant now);
/// The same, where it has begun.
base::Result<std::optional<Inspection>> inspection_now(sqlite::Database& database,
                                                       std::int64_t person, base::Instant now);

}  // namespace benchwarden::access
