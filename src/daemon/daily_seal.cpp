#include "daemon/daily_seal.h"

#include "workshop/sealing.h"

namespace benchwarden::daemon {

void DailySeal::look_after() {
  const auto sealed = workshop::seal_book_daily(ports_);
  if (!sealed) return log_.write_once(Severity::kError, "no-checkpoint", sealed.error().detail);
  log_.settled("no-checkpoint");
}

}  // namespace benchwarden::daemon
