#pragma once

#include "base/json.h"
#include "daemon/config.h"
#include "daemon/front.h"
#include "daemon/log.h"
#include "daemon/request_counts.h"
#include "workshop/ports.h"

namespace benchwarden::daemon {

/// How the program runs, for somebody who cannot see the machine: versions, sizes, room on the
/// disk, what was said in the log. Nothing of what is recorded, no name and no secret.
class Diagnostics {
 public:
  Diagnostics(const Config& config, const workshop::Ports& ports, const Front& front,
              const Log& log, const RequestCounts& requests)
      : config_(config),
        ports_(ports),
        front_(front),
        log_(log),
        requests_(requests),
        started_at_(ports.clock.now()) {}

  /// Made anew on each call. What cannot be found out is null.
  [[nodiscard]] base::Json told() const;

 private:
  [[nodiscard]] base::JsonObject machine() const;
  [[nodiscard]] base::JsonObject book() const;
  [[nodiscard]] base::JsonObject requests() const;
  [[nodiscard]] base::JsonObject connections() const;

  const Config& config_;
  const workshop::Ports& ports_;
  const Front& front_;
  const Log& log_;
  const RequestCounts& requests_;
  const base::Instant started_at_;
};

}  // namespace benchwarden::daemon
