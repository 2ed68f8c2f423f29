#pragma once

#include <sqlite3.h>

#include <array>
#include <cstdint>
#include <filesystem>
#include <map>
#include <mutex>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace benchwarden::testing {

/// What SQLite asks of a disk, counted apart.
enum class DiskCall { kOpen, kRead, kWrite, kSync, kTruncate, kSize, kDelete, kLock, kShared };
constexpr std::size_t kDiskCalls = 9;

/// What one call, or each from one on, answers instead of doing its work.
struct DiskFault {
  enum class How {
    kRefuses,    ///< answers `code`
    kReadsLess,  ///< half the bytes, the rest as zeros, as beyond the end of a file
    kReadsZero,  ///< none of the bytes
    kFlipsBit,   ///< one bit of what was read is another
    kReadOnly,   ///< opens, but for reading alone, as on a disk mounted so
  };
  DiskCall call = DiskCall::kRead;
  How how = How::kRefuses;
  int code = SQLITE_IOERR;
  bool lasts = false;  ///< until `repair`
};

/// Files by path, as a disk holds them after the power came back.
using Survivors = std::map<std::string, std::string>;

/// A disk between SQLite and the real one: while it stands, every database of this process that is
/// opened anew lies on it. Files are real ones, so that shared memory and locks are SQLite's own.
/// It keeps apart what was written and not synced yet. Safe from many threads; one at a time.
class FaultyDisk {
 public:
  FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;
  ~FaultyDisk();

  /// Call number `number` of that kind from now on, counted from 1, shows the fault.
  void arm(const DiskFault& fault, int number);
  void repair();             ///< neither faults nor a quota from now on
  [[nodiscard]] int hits();  ///< calls that showed the fault since `arm`
  [[nodiscard]] int calls(DiskCall call);

  /// So many bytes in all files together; a write takes the last one before it fails.
  void limit_to(std::int64_t bytes);
  [[nodiscard]] std::int64_t bytes_used();

  /// The power goes at the call that changes the disk which is number `number` from now on. All
  /// calls fail from then on.
  void cut_at(int number);
  [[nodiscard]] bool is_cut();
  /// A file that is written past SQLite, in sectors; it is looked at before each change and sync.
  void watch(const std::filesystem::path& file);
  /// What a cut leaves: all that was synced, of the rest any part, sector by sector. The power is
  /// back afterwards, on an empty disk.
  Survivors survivors(std::mt19937_64& random);

 private:
  friend struct DiskFile;
  friend struct DiskCalls;
  static constexpr int kNever = -1;

  /// A write, or a cut to `offset` bytes.
  struct Change {
    std::int64_t offset = 0;
    std::string bytes;
    bool cuts = false;
  };
  struct Content {
    std::string synced;
    std::vector<Change> unsynced;
  };
  struct Name {
    std::optional<Content> now;
    bool now_in_folder = false;   ///< the folder was synced since the file was made
    std::optional<Content> gone;  ///< what lay there, while its end is not synced
  };

  /// SQLITE_OK, or what the call is to answer instead.
  int enter(DiskCall call, std::optional<DiskFault::How>* how);
  bool changes_end_here(DiskCall call);
  void look_at_watched();
  std::int64_t room_for(const std::string& path, std::int64_t end);
  void wrote(const std::string& path, std::int64_t offset, std::string bytes);
  void cut_off(const std::string& path, std::int64_t size);
  void opened(const std::string& path);
  void synced(const std::string& path, bool with_folder);
  void deleted(const std::string& path, bool with_folder);
  static std::string after_cut(const Content& content, std::mt19937_64& random);
  [[nodiscard]] std::string watched_after_cut(const std::vector<std::string>& versions,
                                              std::mt19937_64& random) const;

  sqlite3_vfs* real_;
  sqlite3_vfs vfs_;
  std::mutex mutex_;
  std::map<std::string, Name> names_;
  std::map<std::string, std::int64_t> sizes_;
  std::map<std::string, std::vector<std::string>> watched_;  ///< the versions of each, oldest first
  std::array<int, kDiskCalls> calls_{};
  std::optional<DiskFault> fault_;
  int fault_in_ = kNever;
  int hits_ = 0;
  int cut_in_ = kNever;
  bool cut_ = false;
  std::optional<std::int64_t> limit_;
};

/// The first base of a fixture, so that nothing is opened before the disk nor closed after it.
struct OnFaultyDisk {
  FaultyDisk disk_;
};

/// Puts files into `folder` under their own names, in place of what is there.
void put_files(const Survivors& files, const std::filesystem::path& folder);

}  // namespace benchwarden::testing
