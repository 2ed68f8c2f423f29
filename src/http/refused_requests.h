#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "access/access.h"

namespace benchwarden::http {

/// Requests that were refused, until they are written down. All are counted; of each reason so few
/// are kept that a flood fills neither memory nor disk, nor takes the place of other reasons.
class RefusedRequests {
 public:
  explicit RefusedRequests(const base::Clock& clock) : clock_(clock) {}

  void note(const std::string& reason, const std::string& address, const std::string& person);
  /// Writes down what came since the last time.
  base::Status<> write_to(access::Access& access);

 private:
  static constexpr std::uint64_t kKeptMax = 50;  ///< of a reason between two writings

  const base::Clock& clock_;
  std::mutex mutex_;
  std::vector<access::RefusedRequest> lines_;
  std::map<std::pair<std::string, std::int64_t>, std::uint64_t> counts_;  ///< reason and quarter
};

}  // namespace benchwarden::http
