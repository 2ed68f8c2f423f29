#include "workshop/restore.h"

#include <string>
#include <utility>

#include "book/restored_folder.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {
namespace {

base::Error does_not_hold(const std::string& what) {
  return {base::ErrorCode::kDamaged, "the backup does not hold: " + what};
}

base::Status<> prove(const std::filesystem::path& folder, const BackupManifest& manifest,
                     const RestoreRequest& request, const Definitions& definitions) {
  const auto verified = verify_book(folder, definitions);
  if (!verified) return verified.error();
  if (!verified->faults.empty()) return does_not_hold(verified->faults.front());
  if (verified->head != manifest.head) {
    return does_not_hold("the book has another tree head than the manifest names");
  }
  const bool same_fold = manifest.fold_version == tallies::kFoldVersion;
  if (same_fold && verified->tallies != manifest.tallies) {
    return does_not_hold("the entries fold to other tallies than when it was made");
  }
  if (manifest.files.contains(book::kBackupAccess)) {
    auto checked = book::check_database(folder / book::kBackupAccess);
    if (!checked) return checked;
  }
  return request.holds ? book::check_goes_on(folder, *request.holds) : base::Done{};
}

}  // namespace

base::Result<Restored> restore_backup(const RestoreRequest& request,
                                      const Definitions& definitions) {
  auto manifest = read_manifest(request.backup);
  if (!manifest) return manifest.error();
  auto folder = book::RestoredFolder::begin(request.data_folder);
  if (!folder) return folder.error();
  if (folder->in_use() && request.existing == Existing::kRefuse) {
    return base::Error{base::ErrorCode::kConflict,
                       request.data_folder.string() +
                           " holds a book or people already; --replace moves them aside"};
  }
  const auto copied = folder->copy(request.backup, manifest->files);
  if (!copied) return copied.error();
  const auto proven = prove(folder->copies(), *manifest, request, definitions);
  if (!proven) return proven.error();
  const auto aside = folder->place("replaced-" + backup_time(request.now));
  if (!aside) return aside.error();
  return Restored{*std::move(manifest), *aside};
}

}  // namespace benchwarden::workshop
