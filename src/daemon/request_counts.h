#pragma once

#include <array>
#include <cstdint>
#include <mutex>

#include "base/timestamp.h"
#include "http/application.h"

namespace benchwarden::daemon {

/// How many requests were answered how, and which took longest. Safe to use from many threads.
class RequestCounts {
 public:
  void add(const http::AccessLine& line, base::Instant now);

  struct Told {
    std::array<std::uint64_t, 6> by_hundred{};  ///< by_hundred[4]: answers of 400 to 499
    http::AccessLine slowest;
    base::Instant slowest_at;
  };
  [[nodiscard]] Told told() const;

 private:
  mutable std::mutex mutex_;
  Told told_;
};

}  // namespace benchwarden::daemon
