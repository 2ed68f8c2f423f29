#include "workshop/backup.h"

#include <optional>
#include <utility>

#include "book/last_head.h"
#include "book/new_folder.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {
namespace {

base::Status<> write_new(const std::filesystem::path& path, std::string_view bytes) {
  book::NewFile file(path);
  file.add(bytes);
  return file.finish();
}

base::Result<Verified> verified_copy(const std::filesystem::path& folder,
                                     const Definitions& definitions,
                                     std::optional<book::Book::Snapshot> stored) {
  auto verified = verify_book(folder, definitions, std::move(stored));
  if (!verified) return verified;
  if (!verified->faults.empty()) {
    return base::Error{base::ErrorCode::kDamaged,
                       "the book does not verify: " + verified->faults.front()};
  }
  if (!verified->tallies) {
    return base::Error{base::ErrorCode::kDamaged, "the book cannot be folded"};
  }
  return verified;
}

/// Writes the manifest; gives its digest.
base::Result<base::Sha256Digest> describe(const std::filesystem::path& folder,
                                          const BackupManifest& manifest) {
  const std::string text = format_manifest(manifest);
  for (const auto& [name, bytes] : {std::pair(kBackupManifest, text),
                                    std::pair(kBackupManifestDigest, manifest_digest_line(text))}) {
    const auto written = write_new(folder / name, bytes);
    if (!written) return written.error();
  }
  return base::sha256(text);
}

}  // namespace

base::Result<Backup> make_backup(const BackupRequest& request, const Definitions& definitions) {
  // Before the book: it can only have grown by the time that is copied.
  auto stored = book::stored_snapshot(request.data_folder);
  const std::filesystem::path target = request.to / backup_name(request.now);
  auto folder = book::NewFolder::begin(target, book::NewFolder::Place::kFree);
  if (!folder) return folder.error();
  const auto copied = book::copy_book(request.data_folder, folder->path());
  if (!copied) return copied.error();
  const auto verified = verified_copy(folder->path(), definitions, std::move(stored));
  if (!verified) return verified.error();
  // From here on the end of the copy is the one to hold it to.
  const auto headed = book::LastHeadFile::create(folder->path(), verified->head);
  if (!headed) return headed.error();
  const auto people = book::copy_people(request.data_folder, folder->path());
  if (!people) return people.error();
  auto files = book::backup_files_in(folder->path());
  if (!files) return files.error();

  BackupManifest manifest{request.program,       request.now,        verified->head,
                          tallies::kFoldVersion, *verified->tallies, *std::move(files)};
  const auto digest = describe(folder->path(), manifest);
  if (!digest) return digest.error();
  const auto finished = folder->finish();
  if (!finished) return finished.error();
  return Backup{target, std::move(manifest), *digest};
}

}  // namespace benchwarden::workshop
