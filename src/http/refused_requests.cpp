#include "http/refused_requests.h"

#include <utility>

namespace benchwarden::http {

void RefusedRequests::note(const std::string& reason, const std::string& address) {
  const std::lock_guard lock(mutex_);
  ++counts_[reason];
  if (lines_.size() < kKeptMax) lines_.push_back({clock_.now(), reason, address});
}

base::Status<> RefusedRequests::write_to(access::Access& access) {
  std::vector<access::RefusedRequest> lines;
  access::AccessCounts counts;
  {
    const std::lock_guard lock(mutex_);
    lines.swap(lines_);
    counts.swap(counts_);
  }
  if (counts.empty()) return base::Done{};
  return access.note_refused_requests(lines, counts);
}

}  // namespace benchwarden::http
