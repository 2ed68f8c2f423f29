#include "workshop/backup.h"

#include <optional>
#include <system_error>
#include <utility>

#include "book/last_head.h"
#include "book/new_folder.h"
#include "book/verify.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {
namespace {

namespace fs = std::filesystem;

base::Status<> write_new(const fs::path& path, std::string_view bytes) {
  book::NewFile file(path);
  file.add(bytes);
  return file.finish();
}

base::Result<bool> is_there(const fs::path& path) {
  std::error_code failure;
  const bool there = fs::exists(path, failure);
  if (!failure) return there;
  return base::Error{base::ErrorCode::kUnavailable, path.string() + ": " + failure.message()};
}

/// The book, with the head that it had been recorded to have before it was copied.
base::Status<> copy_book(const fs::path& from, const fs::path& to) {
  const auto last = book::LastHeadFile::read(from);
  if (!last) return last.error();
  if (*last) {
    auto created = book::LastHeadFile::create(to, **last);
    if (!created) return created;
  }
  return book::copy_database(from / kBackupBook, to / kBackupBook);
}

base::Result<Verified> verified_copy(const fs::path& folder, const Definitions& definitions,
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

/// After the book: whoever signed an entry of it is in it.
base::Status<> copy_people(const fs::path& from, const fs::path& to) {
  const auto there = is_there(from / kBackupAccess);
  if (!there) return there.error();
  if (!*there) return base::Done{};
  auto copied = book::copy_database(from / kBackupAccess, to / kBackupAccess);
  if (!copied) return copied;
  return book::check_database(to / kBackupAccess);
}

base::Status<> describe_files(const fs::path& folder, BackupManifest& manifest) {
  for (const std::string_view name : {kBackupBook, kBackupHead, kBackupAccess}) {
    const auto there = is_there(folder / name);
    if (!there) return there.error();
    if (!*there) continue;
    const auto facts = book::facts_of(folder / name);
    if (!facts) return facts.error();
    manifest.files.emplace(name, *facts);
  }
  return base::Done{};
}

}  // namespace

base::Result<Backup> make_backup(const BackupRequest& request, const Definitions& definitions) {
  const auto there = is_there(request.data_folder / kBackupBook);
  if (!there) return there.error();
  if (!*there) {
    return base::Error{base::ErrorCode::kNotFound,
                       "there is no book in " + request.data_folder.string()};
  }
  // Before the book: it can only have grown by the time that is copied.
  auto stored = book::stored_snapshot(request.data_folder);
  const fs::path target = request.to / backup_name(request.now);
  auto folder = book::NewFolder::begin(target, book::NewFolder::Place::kFree);
  if (!folder) return folder.error();
  const auto copied = copy_book(request.data_folder, folder->path());
  if (!copied) return copied.error();
  const auto verified = verified_copy(folder->path(), definitions, std::move(stored));
  if (!verified) return verified.error();
  // From here on the end of the copy is the one to hold it to.
  const auto headed = book::LastHeadFile::create(folder->path(), verified->head);
  if (!headed) return headed.error();
  const auto people = copy_people(request.data_folder, folder->path());
  if (!people) return people.error();

  BackupManifest manifest{request.program,       request.now,        verified->head,
                          tallies::kFoldVersion, *verified->tallies, {}};
  const auto described = describe_files(folder->path(), manifest);
  if (!described) return described.error();
  const std::string text = format_manifest(manifest);
  for (const auto& [name, bytes] : {std::pair(kBackupManifest, text),
                                    std::pair(kBackupManifestDigest, manifest_digest_line(text))}) {
    const auto written = write_new(folder->path() / name, bytes);
    if (!written) return written.error();
  }
  const auto finished = folder->finish();
  if (!finished) return finished.error();
  return Backup{target, std::move(manifest), base::sha256(text)};
}

}  // namespace benchwarden::workshop
