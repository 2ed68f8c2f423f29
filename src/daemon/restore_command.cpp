#include <array>
#include <iostream>
#include <string_view>
#include <utility>

#include "access/forget_sessions.h"
#include "base/sha256.h"
#include "daemon/open_workshop.h"
#include "daemon/system_clock.h"
#include "workshop/restore.h"

namespace benchwarden::daemon {
namespace {

/// What no backup holds, and whether it is there.
void tell_what_is_missing(const std::filesystem::path& folder, bool is_signed) {
  constexpr std::string_view kSigningKey = "signing.key";
  constexpr std::array<std::pair<std::string_view, const char*>, 3> kKept{{
      {"pepper", "without it nobody who is entered can sign in"},
      {kSigningKey, "without it the daemon starts only with --new-key"},
      {"tls/authority.pem", "without it every tablet is set up anew"},
  }};
  for (const auto& [name, why] : kKept) {
    std::error_code failure;
    if (std::filesystem::exists(folder / name, failure)) continue;
    if (name == kSigningKey && !is_signed) continue;  // the first start makes one
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
  tell_what_is_missing(options.config.data_folder, restored.is_signed);
}

}  // namespace

Exit restore(const Options& options, const RestoreOptions& wanted) {
  workshop::RestoreRequest request{
      wanted.from, options.config.data_folder, {}, {}, SystemClock().now()};
  if (wanted.replace) request.existing = workshop::Existing::kMoveAside;
  if (wanted.head.size) {
    const auto head = read_head_words(wanted.head);
    if (!head) return fail(head.error());
    request.holds = book::TreeHead{head->size, head->root};
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
