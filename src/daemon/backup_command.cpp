#include <iostream>

#include "base/sha256.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/backup.h"

namespace benchwarden::daemon {

Exit backup(const Options& options, const std::filesystem::path& to) {
  const auto there = must_hold(options.config.data_folder, "book.db");
  if (!there) return there.error();
  const auto outside = must_lie_outside(options.config.data_folder, to, "--to");
  if (!outside) return fail(outside.error());
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const auto made = workshop::make_backup(
      {options.config.data_folder, to, BENCHWARDEN_VERSION, SystemClock().now()},
      (*loaded)->definitions);
  if (!made) {
    std::cerr << "benchwarden: no backup was made\n";
    return fail(made.error());
  }
  std::cout << "backup " << made->folder.string() << ": " << made->manifest.head.size
            << " entries, root " << base::to_hex(made->manifest.head.root) << "\n"
            << "manifest " << base::to_hex(made->digest) << "\n"
            << "the pepper, keys and certificates are not in it; keep them apart\n";
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
