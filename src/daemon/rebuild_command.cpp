#include <iostream>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/upkeep.h"

namespace benchwarden::daemon {

Exit rebuild(const Options& options) {
  const auto workshop = OpenWorkshop::open(options, OpenWorkshop::IfMissing::kRefuse,
                                           std::make_unique<SystemClock>());
  if (!workshop) return workshop.error();
  const auto rebuilt = workshop::rebuild((*workshop)->ports());
  if (!rebuilt) return fail(rebuilt.error());
  std::cout << rebuilt->entries << " entries folded anew; the stored tallies "
            << (rebuilt->same ? "were the same" : "DIFFERED and have been replaced") << "\n";
  return rebuilt->same ? Exit::kDone : Exit::kFaultsFound;
}

}  // namespace benchwarden::daemon
