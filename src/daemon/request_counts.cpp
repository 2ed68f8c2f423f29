#include "daemon/request_counts.h"

#include <algorithm>

namespace benchwarden::daemon {

void RequestCounts::add(const http::AccessLine& line, base::Instant now) {
  const auto hundred = static_cast<std::size_t>(std::clamp(line.status / 100, 0, 5));
  const std::lock_guard lock(mutex_);
  ++told_.by_hundred.at(hundred);
  if (line.duration <= told_.slowest.duration) return;
  told_.slowest = line;
  told_.slowest_at = now;
}

RequestCounts::Told RequestCounts::told() const {
  const std::lock_guard lock(mutex_);
  return told_;
}

}  // namespace benchwarden::daemon
