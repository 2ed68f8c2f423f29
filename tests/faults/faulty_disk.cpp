#include "faults/faulty_disk.h"

#include <algorithm>
#include <cassert>
#include <fstream>
#include <system_error>
#include <utility>

#include "faults/disk_calls.h"

namespace benchwarden::testing {
namespace {

constexpr std::size_t kSectorBytes = 512;

void put_at(std::string& content, std::int64_t offset, std::string_view bytes) {
  const auto from = static_cast<std::size_t>(offset);
  if (content.size() < from + bytes.size()) content.resize(from + bytes.size());
  content.replace(from, bytes.size(), bytes);
}

std::int64_t size_of(const std::string& path) {
  std::error_code failure;
  const auto size = std::filesystem::file_size(path, failure);
  return failure ? 0 : static_cast<std::int64_t>(size);
}

std::string whole_file(const std::string& path) {
  std::string bytes(static_cast<std::size_t>(size_of(path)), '\0');
  std::ifstream(path, std::ios::binary)
      .read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  return bytes;
}

bool coin(std::mt19937_64& random) { return (random() & 1U) != 0; }

}  // namespace

FaultyDisk::FaultyDisk() : real_(sqlite3_vfs_find(nullptr)), vfs_(vfs_on(*real_, *this)) {
  sqlite3_vfs_register(&vfs_, 1);
}

FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(&vfs_);
  sqlite3_vfs_register(real_, 1);
}

void FaultyDisk::arm(const DiskFault& fault, int number) {
  const std::lock_guard lock(mutex_);
  fault_ = fault;
  fault_in_ = number;
  hits_ = 0;
}

void FaultyDisk::repair() {
  const std::lock_guard lock(mutex_);
  fault_.reset();
  limit_.reset();
}

int FaultyDisk::hits() {
  const std::lock_guard lock(mutex_);
  return hits_;
}

int FaultyDisk::calls(DiskCall call) {
  const std::lock_guard lock(mutex_);
  return calls_[static_cast<std::size_t>(call)];
}

void FaultyDisk::limit_to(std::int64_t bytes) {
  const std::lock_guard lock(mutex_);
  limit_ = bytes;
  hits_ = 0;
}

std::int64_t FaultyDisk::bytes_used() {
  const std::lock_guard lock(mutex_);
  std::int64_t sum = 0;
  for (const auto& [path, size] : sizes_) sum += size;
  return sum;
}

void FaultyDisk::cut_at(int number) {
  const std::lock_guard lock(mutex_);
  cut_in_ = number;
}

bool FaultyDisk::is_cut() {
  const std::lock_guard lock(mutex_);
  return cut_;
}

void FaultyDisk::watch(const std::filesystem::path& file) {
  const std::lock_guard lock(mutex_);
  watched_[file.string()];
  look_at_watched();
}

void FaultyDisk::look_at_watched() {
  for (auto& [path, versions] : watched_) {
    std::string bytes = whole_file(path);
    if (!bytes.empty() && (versions.empty() || versions.back() != bytes)) {
      versions.push_back(std::move(bytes));
    }
  }
}

bool FaultyDisk::changes_end_here(DiskCall call) {
  const bool changes = call == DiskCall::kWrite || call == DiskCall::kSync ||
                       call == DiskCall::kTruncate || call == DiskCall::kDelete;
  if (!changes) return false;
  look_at_watched();
  return cut_in_ > 0 && --cut_in_ == 0;
}

int FaultyDisk::enter(DiskCall call, std::optional<DiskFault::How>* how) {
  constexpr int kGone = SQLITE_IOERR;
  if (cut_) return kGone;
  ++calls_[static_cast<std::size_t>(call)];
  if (changes_end_here(call)) {
    // What a write was about to write may reach the disk all the same.
    cut_ = true;
    return call == DiskCall::kWrite ? SQLITE_OK : kGone;
  }
  if (!fault_ || fault_->call != call) return SQLITE_OK;
  if (fault_in_ > 0) --fault_in_;
  if (fault_in_ != 0) return SQLITE_OK;
  ++hits_;
  if (!fault_->lasts) fault_in_ = kNever;
  if (how != nullptr) *how = fault_->how;
  return fault_->how == DiskFault::How::kRefuses ? fault_->code : SQLITE_OK;
}

std::int64_t FaultyDisk::room_for(const std::string& path, std::int64_t end) {
  std::int64_t others = 0;
  for (const auto& [name, size] : sizes_) others += name == path ? 0 : size;
  if (!limit_ || others + std::max(end, sizes_[path]) <= *limit_) return end;
  ++hits_;
  return std::max(sizes_[path], *limit_ - others);
}

void FaultyDisk::opened(const std::string& path) {
  Name& name = names_[path];
  // Unless it was removed or put there past us meanwhile.
  if (name.now && sizes_[path] == size_of(path)) return;
  // What lies there before anything was written here had been synced long ago.
  std::string bytes = whole_file(path);
  name.now_in_folder = !bytes.empty();
  sizes_[path] = static_cast<std::int64_t>(bytes.size());
  name.now = Content{std::move(bytes), {}};
}

void FaultyDisk::wrote(const std::string& path, std::int64_t offset, std::string bytes) {
  std::int64_t& size = sizes_[path];
  size = std::max(size, offset + static_cast<std::int64_t>(bytes.size()));
  names_[path].now->unsynced.push_back({offset, std::move(bytes), false});
}

void FaultyDisk::cut_off(const std::string& path, std::int64_t size) {
  sizes_[path] = size;
  names_[path].now->unsynced.push_back({size, {}, true});
}

void FaultyDisk::synced(const std::string& path, bool with_folder) {
  Content& content = *names_[path].now;
  for (const Change& change : content.unsynced) {
    if (change.cuts) {
      content.synced.resize(static_cast<std::size_t>(change.offset));
    } else {
      put_at(content.synced, change.offset, change.bytes);
    }
  }
  content.unsynced.clear();
  if (!with_folder) return;
  for (auto& [other, name] : names_) {
    name.now_in_folder = name.now.has_value();
    name.gone.reset();
  }
}

void FaultyDisk::deleted(const std::string& path, bool with_folder) {
  sizes_.erase(path);
  Name& name = names_[path];
  if (name.now && name.now_in_folder) name.gone = std::move(name.now);
  name.now.reset();
  name.now_in_folder = false;
  if (with_folder) name.gone.reset();
}

std::string FaultyDisk::after_cut(const Content& content, std::mt19937_64& random) {
  enum { kNone, kAll, kAny, kModes };
  const auto mode = random() % kModes;
  std::string bytes = content.synced;
  for (const Change& change : content.unsynced) {
    if (mode == kNone || (mode == kAny && change.cuts && coin(random))) continue;
    if (change.cuts) {
      bytes.resize(static_cast<std::size_t>(change.offset));
      continue;
    }
    std::string_view rest = change.bytes;
    for (std::int64_t at = change.offset; !rest.empty();) {
      const std::size_t in_sector = kSectorBytes - static_cast<std::size_t>(at) % kSectorBytes;
      const std::string_view piece = rest.substr(0, in_sector);
      if (mode == kAll || coin(random)) put_at(bytes, at, piece);
      at += static_cast<std::int64_t>(piece.size());
      rest.remove_prefix(piece.size());
    }
  }
  return bytes;
}

std::string FaultyDisk::watched_after_cut(const std::vector<std::string>& versions,
                                          std::mt19937_64& random) const {
  std::string bytes = versions[random() % versions.size()];
  for (std::size_t at = 0; at + kSectorBytes <= bytes.size(); at += kSectorBytes) {
    const std::string& version = versions[random() % versions.size()];
    bytes.replace(at, kSectorBytes, version, at, kSectorBytes);
  }
  // The sector that was being written may be neither.
  if (versions.size() > 1 && random() % 4 == 0) {
    const std::string& before = versions[versions.size() - 2];
    const std::string& last = versions.back();
    const bool second = before.compare(0, kSectorBytes, last, 0, kSectorBytes) == 0;
    bytes.replace(second ? kSectorBytes : 0, kSectorBytes, kSectorBytes, '\xA5');
  }
  return bytes;
}

Survivors FaultyDisk::survivors(std::mt19937_64& random) {
  const std::lock_guard lock(mutex_);
  Survivors files;
  for (const auto& [path, name] : names_) {
    const bool is_new_there = name.now && (name.now_in_folder || coin(random));
    if (is_new_there) files[path] = after_cut(*name.now, random);
    if (!is_new_there && name.gone && coin(random)) files[path] = after_cut(*name.gone, random);
  }
  for (const auto& [path, versions] : watched_) {
    if (!versions.empty()) files[path] = watched_after_cut(versions, random);
  }
  names_.clear();
  sizes_.clear();
  watched_.clear();
  cut_in_ = kNever;
  cut_ = false;
  return files;
}

void put_files(const Survivors& files, const std::filesystem::path& folder) {
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  for (const auto& [path, bytes] : files) {
    std::ofstream file(folder / std::filesystem::path(path).filename(), std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  }
}

}  // namespace benchwarden::testing
