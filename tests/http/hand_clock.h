#pragma once

#include <atomic>
#include <cstdint>

#include "base/clock.h"

namespace benchwarden::http {

/// Stands still unless days pass.
class HandClock final : public base::Clock {
 public:
  [[nodiscard]] base::Instant now() const override { return {ms_.load()}; }
  void pass_days(int days) { ms_ += days * kDayMs; }
  static constexpr std::int64_t kDayMs = std::int64_t{24} * 60 * 60 * 1000;

 private:
  std::atomic<std::int64_t> ms_{1'795'000'000'000};
};

}  // namespace benchwarden::http
