#pragma once

#include <cstdint>
#include <optional>

#include "access/settings.h"
#include "base/result.h"
#include "base/timestamp.h"

namespace benchwarden::access {

/// Wrong PINs in a row, and when the last one was.
struct Failures {
  int count = 0;
  base::Instant last;
};

/// A person shut out: for `wait_ms` from now, or, without one, until the PIN is set anew.
struct ShutOut {
  std::optional<std::int64_t> wait_ms;
};

base::Status<> check_lock_out(const LockOut& rules);  ///< kInvalid: see LockOut

/// None: the person may try. `failures.last` is not after `now`.
std::optional<ShutOut> shut_out(const LockOut& rules, const Failures& failures, base::Instant now);

}  // namespace benchwarden::access
