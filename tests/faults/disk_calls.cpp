#include "faults/disk_calls.h"

#include <cstring>
#include <new>
#include <string>

#include "faults/faulty_disk.h"

namespace benchwarden::testing {

/// An open file: SQLite gives the memory, and behind this lies what the disk beneath keeps of it.
struct DiskFile {
  sqlite3_file base;
  FaultyDisk* disk;
  std::string* path;  ///< nullptr: nameless, a scratch file of which nothing is to survive
  bool with_folder;   ///< its first sync is to bring its name to the disk, too

  [[nodiscard]] sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
  [[nodiscard]] const sqlite3_io_methods& methods() { return *real()->pMethods; }
};

namespace {

using How = std::optional<DiskFault::How>;

DiskFile& file_of(sqlite3_file* file) { return *reinterpret_cast<DiskFile*>(file); }
FaultyDisk& disk_of(sqlite3_vfs* vfs) { return *static_cast<FaultyDisk*>(vfs->pAppData); }

}  // namespace

/// The functions of the two tables, in their order.
struct DiskCalls {
  static int close(sqlite3_file* base) {
    DiskFile& file = file_of(base);
    const int closed = file.methods().xClose(file.real());
    delete file.path;
    return closed;
  }

  static int read(sqlite3_file* base, void* to, int count, sqlite3_int64 offset) {
    DiskFile& file = file_of(base);
    How how;
    int answer = SQLITE_OK;
    {
      const std::lock_guard lock(file.disk->mutex_);
      answer = file.disk->enter(DiskCall::kRead, &how);
    }
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_READ : answer;
    answer = file.methods().xRead(file.real(), to, count, offset);
    if (!how || answer != SQLITE_OK) return answer;
    auto* bytes = static_cast<unsigned char*>(to);
    if (*how == DiskFault::How::kFlipsBit) {
      bytes[count / 2] ^= 0x10U;
      return SQLITE_OK;
    }
    const int kept = *how == DiskFault::How::kReadsLess ? count / 2 : 0;
    std::memset(bytes + kept, 0, static_cast<std::size_t>(count - kept));
    return SQLITE_IOERR_SHORT_READ;
  }

  static int write(sqlite3_file* base, const void* from, int count, sqlite3_int64 offset) {
    DiskFile& file = file_of(base);
    FaultyDisk& disk = *file.disk;
    const std::lock_guard lock(disk.mutex_);
    const int answer = disk.enter(DiskCall::kWrite, nullptr);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_WRITE : answer;
    if (file.path == nullptr) return file.methods().xWrite(file.real(), from, count, offset);
    const auto fits = static_cast<int>(disk.room_for(*file.path, offset + count) - offset);
    if (fits > 0) {
      const int written = file.methods().xWrite(file.real(), from, fits, offset);
      if (written != SQLITE_OK) return written;
      disk.wrote(*file.path, offset,
                 {static_cast<const char*>(from), static_cast<std::size_t>(fits)});
    }
    if (disk.cut_) return SQLITE_IOERR_WRITE;
    return fits < count ? SQLITE_FULL : SQLITE_OK;
  }

  static int truncate(sqlite3_file* base, sqlite3_int64 size) {
    DiskFile& file = file_of(base);
    const std::lock_guard lock(file.disk->mutex_);
    const int answer = file.disk->enter(DiskCall::kTruncate, nullptr);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_TRUNCATE : answer;
    if (file.path != nullptr) file.disk->cut_off(*file.path, size);
    return file.methods().xTruncate(file.real(), size);
  }

  /// Nothing is brought to the disk beneath: it is never cut off from its power here.
  static int sync(sqlite3_file* base, int) {
    DiskFile& file = file_of(base);
    const std::lock_guard lock(file.disk->mutex_);
    const int answer = file.disk->enter(DiskCall::kSync, nullptr);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_FSYNC : answer;
    if (file.path != nullptr) file.disk->synced(*file.path, file.with_folder);
    file.with_folder = false;
    return SQLITE_OK;
  }

  static int size(sqlite3_file* base, sqlite3_int64* bytes) {
    const int answer = ask(base, DiskCall::kSize);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_FSTAT : answer;
    return file_of(base).methods().xFileSize(file_of(base).real(), bytes);
  }

  static int lock(sqlite3_file* base, int level) {
    const int answer = ask(base, DiskCall::kLock);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_LOCK : answer;
    return file_of(base).methods().xLock(file_of(base).real(), level);
  }

  static int unlock(sqlite3_file* base, int level) {
    return file_of(base).methods().xUnlock(file_of(base).real(), level);
  }

  static int is_locked(sqlite3_file* base, int* answer) {
    return file_of(base).methods().xCheckReservedLock(file_of(base).real(), answer);
  }

  static int control(sqlite3_file* base, int what, void* argument) {
    return file_of(base).methods().xFileControl(file_of(base).real(), what, argument);
  }

  static int sector_size(sqlite3_file* base) {
    return file_of(base).methods().xSectorSize(file_of(base).real());
  }

  static int traits(sqlite3_file* base) {
    return file_of(base).methods().xDeviceCharacteristics(file_of(base).real());
  }

  static int map(sqlite3_file* base, int region, int bytes, int extend, void volatile** at) {
    const int answer = ask(base, DiskCall::kShared);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_SHMMAP : answer;
    return file_of(base).methods().xShmMap(file_of(base).real(), region, bytes, extend, at);
  }

  static int lock_map(sqlite3_file* base, int offset, int count, int flags) {
    if ((flags & SQLITE_SHM_UNLOCK) == 0) {
      const int answer = ask(base, DiskCall::kLock);
      if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_SHMLOCK : answer;
    }
    return file_of(base).methods().xShmLock(file_of(base).real(), offset, count, flags);
  }

  static void barrier(sqlite3_file* base) {
    file_of(base).methods().xShmBarrier(file_of(base).real());
  }

  static int unmap(sqlite3_file* base, int remove) {
    return file_of(base).methods().xShmUnmap(file_of(base).real(), remove);
  }

  static int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* base, int flags, int* got) {
    FaultyDisk& disk = disk_of(vfs);
    How how;
    base->pMethods = nullptr;
    {
      const std::lock_guard lock(disk.mutex_);
      const int answer = disk.enter(DiskCall::kOpen, &how);
      if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_CANTOPEN : answer;
    }
    if (how == DiskFault::How::kReadOnly) {
      flags = (flags & ~(SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)) | SQLITE_OPEN_READONLY;
    }
    constexpr int kLogs = SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_SUPER_JOURNAL;
    auto* file = new (base) DiskFile{{}, &disk, nullptr, (flags & kLogs) != 0};
    const int opened = disk.real_->xOpen(disk.real_, name, file->real(), flags, got);
    if (opened != SQLITE_OK) {
      if (file->real()->pMethods != nullptr) file->methods().xClose(file->real());
      return opened;
    }
    if (name != nullptr) {
      file->path = new std::string(name);
      const std::lock_guard lock(disk.mutex_);
      disk.opened(*file->path);
    }
    file->base.pMethods = &kMethods;
    return SQLITE_OK;
  }

  static int remove(sqlite3_vfs* vfs, const char* name, int with_folder) {
    FaultyDisk& disk = disk_of(vfs);
    const std::lock_guard lock(disk.mutex_);
    const int answer = disk.enter(DiskCall::kDelete, nullptr);
    if (answer != SQLITE_OK) return answer == SQLITE_IOERR ? SQLITE_IOERR_DELETE : answer;
    const int deleted = disk.real_->xDelete(disk.real_, name, 0);
    if (deleted == SQLITE_OK) disk.deleted(name, with_folder != 0);
    return deleted;
  }

  static int ask(sqlite3_file* base, DiskCall call) {
    FaultyDisk& disk = *file_of(base).disk;
    const std::lock_guard lock(disk.mutex_);
    return disk.enter(call, nullptr);
  }

  static constexpr sqlite3_io_methods kMethods{
      2,       close,       read,   write, truncate, sync,    size,  lock,    unlock, is_locked,
      control, sector_size, traits, map,   lock_map, barrier, unmap, nullptr, nullptr};
};

sqlite3_vfs vfs_on(sqlite3_vfs& beneath, FaultyDisk& disk) {
  sqlite3_vfs vfs = beneath;  // whatever touches no content goes to the one beneath as it is
  vfs.zName = "faulty";
  vfs.pNext = nullptr;
  vfs.szOsFile = static_cast<int>(sizeof(DiskFile)) + beneath.szOsFile;
  vfs.pAppData = &disk;
  vfs.xOpen = DiskCalls::open;
  vfs.xDelete = DiskCalls::remove;
  return vfs;
}

}  // namespace benchwarden::testing
