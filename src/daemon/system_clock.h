#pragma once

#include <chrono>

#include "base/clock.h"

namespace benchwarden::daemon {

class SystemClock : public base::Clock {
 public:
  [[nodiscard]] base::Instant now() const override {
    const auto since_epoch = std::chrono::system_clock::now().time_since_epoch();
    return {std::chrono::duration_cast<std::chrono::milliseconds>(since_epoch).count()};
  }
};

}  // namespace benchwarden::daemon
