#pragma once

#include <optional>

#include "base/timestamp.h"

namespace benchwarden::http {

/// When people are to be told that the authority their devices trust ends: from a year before, and
/// once a day.
class EndingNotice {
 public:
  explicit EndingNotice(base::Instant ends) : ends_(ends) {}
  /// Whether to say it now; having said so, not again before a day has passed.
  bool is_due(base::Instant now);

 private:
  const base::Instant ends_;
  std::optional<base::Instant> said_;
};

}  // namespace benchwarden::http
