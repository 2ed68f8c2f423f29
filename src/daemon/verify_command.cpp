#include <iostream>

#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/upkeep.h"

namespace benchwarden::daemon {

Exit verify(const Options& options, BookEnd end) {
  const auto there = must_hold(options.config.data_folder, "book.db");
  if (!there) return there.error();
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  if (end == BookEnd::kAccept) {
    const auto accepted = workshop::accept_book_end(options.config.data_folder,
                                                    (*loaded)->definitions, SystemClock());
    if (!accepted) return fail(accepted.error());
  }
  const auto verified = workshop::verify_book(options.config.data_folder, (*loaded)->definitions);
  if (!verified) return fail(verified.error());
  for (const std::string& fault : verified->faults) std::cout << fault << "\n";
  for (const std::string& note : verified->notes) std::cout << note << "\n";
  std::cout << verified->entries << " entries, root " << verified->root_hex << "\n";
  if (!verified->faults.empty()) {
    std::cout << "the data folder does NOT hold what was recorded\n";
    return Exit::kFaultsFound;
  }
  std::cout << "every stored byte matches its hashes; this shows change, not false input\n";
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
