#include "http/refused_requests.h"

#include <utility>

namespace benchwarden::http {

void RefusedRequests::note(const std::string& reason, const std::string& address,
                           const std::string& person) {
  const std::lock_guard lock(mutex_);
  // Asked for within the lock: whoever waits for it to write finds all of what came before.
  const base::Instant now = clock_.now();
  const std::uint64_t count = ++counts_[{reason, access::quarter_of(now).ms}];
  if (count <= kKeptMax) lines_.push_back({now, reason, address, person});
}

base::Status<> RefusedRequests::write_to(access::Access& access) {
  std::vector<access::RefusedRequest> lines;
  std::vector<access::RefusedCount> counts;
  {
    const std::lock_guard lock(mutex_);
    lines.swap(lines_);
    for (const auto& [what, times] : std::exchange(counts_, {})) {
      counts.push_back({base::Instant{what.second}, what.first, times});
    }
  }
  if (counts.empty()) return base::Done{};
  return access.note_refused_requests(lines, counts);
}

}  // namespace benchwarden::http
