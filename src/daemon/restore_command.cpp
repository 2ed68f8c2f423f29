#include <array>
#include <iostream>
#include <utility>

#include "access/forget_sessions.h"
#include "base/sha256.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/restore.h"

namespace benchwarden::daemon {
namespace {

/// What no backup holds, and whether it is there.
void tell_what_is_missing(const std::filesystem::path& folder) {
  constexpr std::array<std::pair<const char*, const char*>, 3> kKept{{
      {"pepper", "without it nobody who is entered can sign in"},
      {"signing.key", "without it heads of the tree are signed by a new key"},
      {"tls/authority.pem", "without it every tablet is set up anew"},
  }};
  for (const auto& [name, why] : kKept) {
    std::error_code failure;
    if (std::filesystem::exists(folder / name, failure)) continue;
    std::cout << "still to be put in place: " << (folder / name).string() << "; " << why << "\n";
  }
  std::cout << "the configuration file, and a certificate got elsewhere, are in no backup\n";
}

void print_restored(const Options& options, const workshop::Restored& restored) {
  const workshop::BackupManifest& manifest = restored.manifest;
  std::cout << manifest.head.size << " entries restored, root " << base::to_hex(manifest.head.root)
            << ", backup of " << base::format_rfc3339_utc(manifest.made_at) << " by version "
            << manifest.program << "\n";
  if (!restored.aside.empty()) {
    std::cout << "what was there before lies in " << restored.aside.string() << "\n";
  }
  tell_what_is_missing(options.config.data_folder);
}

}  // namespace

Exit restore(const Options& options, const RestoreOptions& wanted) {
  workshop::RestoreRequest request{
      wanted.from, options.config.data_folder, {}, {}, SystemClock().now()};
  if (wanted.replace) request.existing = workshop::Existing::kMoveAside;
  if (wanted.size) {
    const auto root = base::digest_from_hex(wanted.root);
    if (!root) return fail(root.error());
    request.holds = book::TreeHead{*wanted.size, *root};
  }
  const auto loaded = load_definitions(options);
  if (!loaded) return loaded.error();
  const auto restored = workshop::restore_backup(request, (*loaded)->definitions);
  if (!restored) {
    std::cerr << "benchwarden: nothing was restored\n";
    return fail(restored.error());
  }
  if (restored->manifest.files.contains(book::kBackupAccess)) {
    const auto forgotten = access::forget_sessions(options.config.data_folder);
    if (!forgotten) return fail(forgotten.error());
    std::cout << "every session is ended; look through people and tablets: whom or what was shut "
                 "out after the backup may be let in again\n";
  }
  print_restored(options, *restored);
  return Exit::kDone;
}

}  // namespace benchwarden::daemon
