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

base::Status<> check_lock_out(const LockOut& rules);  ///< kInvalid: see LockOut

/// For how many milliseconds from now the person is shut out; none: may try. `failures.last` is not
/// after `now`.
std::optional<std::int64_t> shut_out_ms(const LockOut& rules, const Failures& failures,
                                        base::Instant now);

}  // namespace benchwarden::access
