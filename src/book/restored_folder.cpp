#include "book/restored_folder.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <system_error>

#include "book/read_only.h"
#include "book/stored_tree.h"

namespace benchwarden::book {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 4> kDatabases{kBackupAccess, kBackupBook, "derived.db",
                                                     "staged.db"};

base::Error cannot_restore(const fs::path& path, const std::error_code& failure) {
  return {base::ErrorCode::kUnavailable, path.string() + ": " + failure.message()};
}

/// A full disk is no fault of the backup: the error names the file that failed.
base::Status<> copy_bytes(const fs::path& from, const fs::path& to) {
  std::ifstream source(from, std::ios::binary);
  NewFile copy(to);
  std::array<char, 65'536> piece{};
  while (source && copy.good()) {
    source.read(piece.data(), piece.size());
    copy.add({piece.data(), static_cast<std::size_t>(source.gcount())});
  }
  auto finished = copy.finish();
  if (!finished || source.eof()) return finished;
  return base::Error{base::ErrorCode::kUnavailable, from.string() + " cannot be read"};
}

}  // namespace

RestoredFolder::Made::~Made() {
  if (!made_) return;
  std::error_code ignored;
  fs::remove(path_ / "lock", ignored);
  fs::remove(path_, ignored);  // only an empty one goes
}

base::Result<RestoredFolder> RestoredFolder::begin(const fs::path& data_folder) {
  std::error_code failure;
  Made made(data_folder, fs::create_directories(data_folder, failure));
  if (failure) return cannot_restore(data_folder, failure);
  auto lock = sqlite::FolderLock::take(data_folder);
  if (!lock) return lock.error();
  auto copies = NewFolder::begin(data_folder / "restored", NewFolder::Place::kFreeOrEmpty);
  if (!copies) return copies.error();
  return RestoredFolder(data_folder, std::move(made), *std::move(lock), *std::move(copies));
}

bool RestoredFolder::in_use() const {
  constexpr std::array kHeld{kBackupBook, kBackupHead, kBackupAccess};
  return std::any_of(kHeld.begin(), kHeld.end(), [&](std::string_view name) {
    std::error_code failure;
    return fs::exists(data_ / name, failure) || failure;
  });
}

base::Status<> RestoredFolder::copy(const fs::path& backup, const FilesByName& files) {
  for (const auto& [name, facts] : files) {
    const auto written = copy_bytes(backup / name, copies() / name);
    if (!written) return written;
    const auto copied = facts_of(copies() / name);
    if (!copied) return copied.error();
    if (*copied != facts) {
      return base::Error{base::ErrorCode::kDamaged, name + " is not what the manifest says"};
    }
    copied_.push_back(name);
  }
  return base::Done{};
}

/// With their logs, so that nothing written is parted from its file.
std::vector<std::string> RestoredFolder::databases_there() const {
  std::vector<std::string> names;
  for (const std::string_view name : kDatabases) {
    for (const char* suffix : {"", "-wal", "-shm"}) {
      std::error_code failure;
      const std::string file = std::string(name) + suffix;
      if (fs::exists(data_ / file, failure)) names.push_back(file);
    }
  }
  return names;
}

/// head.txt is copied, and stays until the new one takes its place: without it, a start in between
/// would begin a new book.
base::Status<> RestoredFolder::move_aside(const fs::path& aside) const {
  std::error_code failure;
  if (!fs::create_directory(aside, failure)) {
    if (failure) return cannot_restore(aside, failure);
    return base::Error{base::ErrorCode::kConflict, aside.string() + " is there already"};
  }
  if (fs::exists(data_ / kBackupHead, failure)) {
    fs::copy_file(data_ / kBackupHead, aside / kBackupHead, failure);
    if (failure) return cannot_restore(aside / kBackupHead, failure);
  }
  for (const std::string& name : databases_there()) {
    fs::rename(data_ / name, aside / name, failure);
    if (failure) return cannot_restore(data_ / name, failure);
  }
  return bring_to_disk(aside);
}

base::Result<fs::path> RestoredFolder::place(const std::string& aside) {
  const auto written = bring_to_disk(copies());
  if (!written) return written.error();
  fs::path moved;
  if (in_use() || !databases_there().empty()) {
    moved = data_ / aside;
    const auto done = move_aside(moved);
    if (!done) return done.error();
  }
  made_.keep();
  for (const std::string_view name : {kBackupHead, kBackupAccess, kBackupBook}) {
    if (std::find(copied_.begin(), copied_.end(), name) == copied_.end()) continue;
    std::error_code failure;
    fs::rename(copies() / name, data_ / name, failure);
    if (!failure) continue;
    base::Error error = cannot_restore(data_ / name, failure);
    if (!moved.empty()) error.detail += "; what was there lies in " + moved.string();
    return error;
  }
  const auto synced = bring_to_disk(data_);
  if (!synced) return synced.error();
  return moved;
}

base::Status<> check_goes_on(const fs::path& folder, const TreeHead& head) {
  auto connection = open_book(folder);
  if (!connection) return connection.error();
  return check_continues(*connection, head);
}

}  // namespace benchwarden::book
