#include "daemon/daily_seal.h"

#include <iostream>

#include "workshop/sealing.h"

namespace benchwarden::daemon {

void DailySeal::look_after() {
  const auto sealed = workshop::seal_book_daily(ports_);
  if (sealed || !told_.insert(sealed.error().detail).second) return;
  std::cerr << "benchwarden: no checkpoint: " + sealed.error().detail + "\n" << std::flush;
}

}  // namespace benchwarden::daemon
