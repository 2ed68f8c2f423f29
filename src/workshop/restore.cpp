#include "workshop/restore.h"

#include <algorithm>
#include <array>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "book/new_folder.h"
#include "book/read_only.h"
#include "book/stored_tree.h"
#include "sqlite/folder_lock.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {
namespace {

namespace fs = std::filesystem;

base::Error cannot_restore(const fs::path& path, const std::error_code& failure) {
  return {base::ErrorCode::kUnavailable, path.string() + ": " + failure.message()};
}

base::Error does_not_hold(const std::string& what) {
  return {base::ErrorCode::kDamaged, "the backup does not hold: " + what};
}

/// A folder that is taken away again, with the lock in it, unless it was there before or is kept.
class DataFolder {
 public:
  static base::Result<DataFolder> make(const fs::path& path) {
    std::error_code failure;
    const bool made = fs::create_directories(path, failure);
    if (failure) return cannot_restore(path, failure);
    return DataFolder(path, made);
  }
  DataFolder(DataFolder&& other) noexcept
      : path_(std::move(other.path_)), made_(std::exchange(other.made_, false)) {}
  DataFolder(const DataFolder&) = delete;
  DataFolder& operator=(const DataFolder&) = delete;
  DataFolder& operator=(DataFolder&&) = delete;
  ~DataFolder() {
    if (!made_) return;
    std::error_code ignored;
    fs::remove(path_ / "lock", ignored);
    fs::remove(path_, ignored);  // only an empty one goes
  }
  void keep() { made_ = false; }

 private:
  DataFolder(fs::path path, bool made) : path_(std::move(path)), made_(made) {}
  fs::path path_;
  bool made_;
};

/// Copies each file and holds the copy to the manifest.
base::Status<> copy_files(const BackupManifest& manifest, const fs::path& from,
                          const fs::path& to) {
  for (const auto& [name, facts] : manifest.files) {
    std::error_code failure;
    fs::copy_file(from / name, to / name, failure);
    if (failure) return cannot_restore(from / name, failure);
    const auto copied = book::facts_of(to / name);
    if (!copied) return copied.error();
    if (*copied != facts) return does_not_hold(name + " is not what the manifest names");
  }
  return base::Done{};
}

base::Status<> prove_holds(const fs::path& folder, const book::TreeHead& head) {
  auto connection = book::open_book(folder);
  if (!connection) return connection.error();
  return book::check_continues(*connection, head);
}

base::Status<> prove(const fs::path& folder, const BackupManifest& manifest,
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
  if (manifest.files.contains(kBackupAccess)) {
    auto checked = book::check_database(folder / kBackupAccess);
    if (!checked) return checked;
  }
  return request.holds ? prove_holds(folder, *request.holds) : base::Done{};
}

constexpr std::array kOfADataFolder{kBackupAccess, kBackupBook, std::string_view("derived.db"),
                                    std::string_view("staged.db")};

bool is_in_use(const fs::path& folder) {
  std::error_code failure;
  return std::any_of(kOfADataFolder.begin(), kOfADataFolder.begin() + 2,
                     [&](std::string_view name) { return fs::exists(folder / name, failure); }) ||
         fs::exists(folder / kBackupHead, failure);
}

/// Databases with their logs, so that nothing written is parted from its file.
std::vector<std::string> names_to_move(const fs::path& folder) {
  std::vector<std::string> names;
  for (const std::string_view name : kOfADataFolder) {
    for (const char* suffix : {"", "-wal", "-shm"}) {
      std::error_code failure;
      const std::string file = std::string(name) + suffix;
      if (fs::exists(folder / file, failure)) names.push_back(file);
    }
  }
  return names;
}

/// head.txt is copied and stays until the new one takes its place: without it, a start in between
/// would begin a new book.
base::Status<> move_aside(const fs::path& folder, const fs::path& aside) {
  std::error_code failure;
  if (!fs::create_directory(aside, failure)) {
    if (failure) return cannot_restore(aside, failure);
    return base::Error{base::ErrorCode::kConflict, aside.string() + " is there already"};
  }
  if (fs::exists(folder / kBackupHead, failure)) {
    fs::copy_file(folder / kBackupHead, aside / kBackupHead, failure);
    if (failure) return cannot_restore(aside / kBackupHead, failure);
  }
  for (const std::string& name : names_to_move(folder)) {
    fs::rename(folder / name, aside / name, failure);
    if (failure) return cannot_restore(folder / name, failure);
  }
  return book::bring_to_disk(aside);
}

/// The book last: where it stands, all stands.
base::Status<> put_in_place(const BackupManifest& manifest, const fs::path& from,
                            const fs::path& folder) {
  for (const std::string_view name : {kBackupHead, kBackupAccess, kBackupBook}) {
    if (!manifest.files.contains(name)) continue;
    std::error_code failure;
    fs::rename(from / name, folder / name, failure);
    if (failure) return cannot_restore(folder / name, failure);
  }
  return base::Done{};
}

}  // namespace

base::Result<Restored> restore_backup(const RestoreRequest& request,
                                      const Definitions& definitions) {
  auto manifest = read_manifest(request.backup);
  if (!manifest) return manifest.error();
  const fs::path& folder = request.data_folder;
  auto data = DataFolder::make(folder);
  if (!data) return data.error();
  const auto lock = sqlite::FolderLock::take(folder);
  if (!lock) return lock.error();
  const bool in_use = is_in_use(folder);
  if (in_use && request.existing == Existing::kRefuse) {
    return base::Error{
        base::ErrorCode::kConflict,
        folder.string() + " holds a book or people already; --replace moves them aside"};
  }
  // In the folder itself, so that the files can take their places whatever it is mounted on.
  const auto staging =
      book::NewFolder::begin(folder / "restored", book::NewFolder::Place::kFreeOrEmpty);
  if (!staging) return staging.error();
  const auto copied = copy_files(*manifest, request.backup, staging->path());
  if (!copied) return copied.error();
  const auto proven = prove(staging->path(), *manifest, request, definitions);
  if (!proven) return proven.error();
  const auto written = book::bring_to_disk(staging->path());
  if (!written) return written.error();

  Restored restored{*std::move(manifest), {}};
  if (in_use || !names_to_move(folder).empty()) {
    restored.aside = folder / ("replaced" + backup_name(request.now).substr(11));
    const auto moved = move_aside(folder, restored.aside);
    if (!moved) return moved.error();
  }
  const auto placed = put_in_place(restored.manifest, staging->path(), folder);
  if (!placed) {
    const std::string before =
        restored.aside.empty() ? "" : "; what was there lies in " + restored.aside.string();
    return base::Error{placed.error().code, placed.error().detail + before};
  }
  data->keep();
  const auto synced = book::bring_to_disk(folder);
  if (!synced) return synced.error();
  return restored;
}

}  // namespace benchwarden::workshop
