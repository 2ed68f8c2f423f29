#pragma once

#include <cstdint>
#include <optional>

#include "access/lock_out.h"
#include "base/result.h"
#include "base/timestamp.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// Stands for every unknown or inactive person: counted, never shut out.
constexpr std::int64_t kNobody = 0;

/// Before a PIN is looked at, the try is counted as a wrong one and stored; a right PIN clears the
/// count. So neither two tries at once nor a crash in the middle gives a free guess. Answers why
/// the person may not try now, in which case nothing is counted.
base::Result<std::optional<ShutOut>> charge_try(sqlite::Database& database, std::int64_t person,
                                                base::Instant now, const LockOut& rules);
base::Status<> clear_failures(sqlite::Database& database, std::int64_t person);

}  // namespace benchwarden::access
