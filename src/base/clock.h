#pragma once

#include "base/timestamp.h"

namespace benchwarden::base {

/// Time is an input: it is read once, when an entry is appended or a question is asked.
class Clock {
 public:
  Clock() = default;
  Clock(const Clock&) = delete;
  Clock& operator=(const Clock&) = delete;
  virtual ~Clock() = default;
  [[nodiscard]] virtual Instant now() const = 0;
};

}  // namespace benchwarden::base
