#pragma once

#include <mutex>
#include <string>
#include <vector>

#include "access/access.h"

namespace benchwarden::http {

/// Requests that were refused before anybody was asked for, until they are written down. All are
/// counted, so few are kept that a flood fills neither memory nor disk.
class RefusedRequests {
 public:
  explicit RefusedRequests(const base::Clock& clock) : clock_(clock) {}

  void note(const std::string& reason, const std::string& address);
  /// Writes down what came since the last time.
  base::Status<> write_to(access::Access& access);

 private:
  static constexpr std::size_t kKeptMax = 50;  ///< between two writings

  const base::Clock& clock_;
  std::mutex mutex_;
  std::vector<access::RefusedRequest> lines_;
  access::AccessCounts counts_;
};

}  // namespace benchwarden::http
