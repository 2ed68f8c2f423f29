#include "access/lock_out.h"

#include <cassert>

namespace benchwarden::access {

base::Status<> check_lock_out(const LockOut& rules) {
  const bool rising = rules.first_failures >= 1 && rules.second_failures >= rules.first_failures &&
                      rules.third_failures >= rules.second_failures;
  if (!rising || rules.first_wait_ms < 0 || rules.second_wait_ms < 0 || rules.third_wait_ms < 0) {
    return base::Error{base::ErrorCode::kInvalid,
                       "lock-out: wants 1 <= first <= second <= third failures, no wait below 0"};
  }
  return base::Done{};
}

std::optional<std::int64_t> shut_out_ms(const LockOut& rules, const Failures& failures,
                                        base::Instant now) {
  assert(failures.count >= 0);
  assert(failures.last <= now);
  if (failures.count < rules.first_failures) return std::nullopt;
  std::int64_t whole = rules.first_wait_ms;
  if (failures.count >= rules.second_failures) whole = rules.second_wait_ms;
  if (failures.count >= rules.third_failures) whole = rules.third_wait_ms;
  const std::int64_t left = failures.last.ms + whole - now.ms;
  if (left <= 0) return std::nullopt;
  return left;
}

}  // namespace benchwarden::access
