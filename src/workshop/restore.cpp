#include "workshop/restore.h"

#include <string>
#include <utility>

#include "book/restored_folder.h"
#include "workshop/verify_backup.h"

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
  const auto faults = faults_by_manifest(*verified, manifest);
  if (!faults.empty()) return does_not_hold(faults.front());
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
  const auto tree = book::stored_checkpoints(folder->copies());
  if (!tree) return tree.error();
  const auto aside = folder->place(std::string(kMovedAside) + backup_time(request.now));
  if (!aside) return aside.error();
  return Restored{*std::move(manifest), *aside, !tree->kept.empty()};
}

}  // namespace benchwarden::workshop
