#include "http/ending_notice.h"

#include <cstdint>

namespace benchwarden::http {
namespace {

constexpr std::int64_t kSaidBeforeMs = 365 * base::kDayMs;

}  // namespace

bool EndingNotice::is_due(base::Instant now) {
  if (ends_.ms - now.ms > kSaidBeforeMs) return false;
  if (said_ && now.ms - said_->ms < base::kDayMs) return false;
  said_ = now;
  return true;
}

}  // namespace benchwarden::http
