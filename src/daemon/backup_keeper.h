#pragma once

#include <filesystem>
#include <future>
#include <mutex>
#include <optional>
#include <string>

#include "daemon/config.h"
#include "daemon/log.h"
#include "workshop/backup.h"
#include "workshop/backup_entry.h"

namespace benchwarden::daemon {

/// Makes a backup a day at the hour that is set, each in a thread of its own so that nobody waits
/// for it, records it in the book, and takes away what the rotation does not keep.
class BackupKeeper {
 public:
  /// `backup_folder` of `config` empty: makes none.
  BackupKeeper(const Config& config, const workshop::Ports& ports, Log& log)
      : config_(config), ports_(ports), log_(log) {}

  /// To be called now and then, by one thread: begins what is due, records what is done.
  void look_after();
  /// Waits for one that is being made, and records it. Before the book is closed.
  void finish();
  /// Safe from any thread.
  [[nodiscard]] workshop::BackupSchedule schedule() const;

 private:
  using Outcome = base::Result<workshop::Backup>;
  [[nodiscard]] bool is_due(base::Instant now) const;
  void begin(base::Instant now);
  void take(const Outcome& outcome);
  void rotate(base::Instant now);
  void tell_failure(const std::string& detail);

  const Config& config_;
  const workshop::Ports& ports_;
  Log& log_;
  std::future<Outcome> running_;
  std::optional<base::Instant> failed_at_;  ///< the last try, where it failed
  mutable std::mutex mutex_;
  std::optional<workshop::BackupSchedule::Failure> failure_;  ///< guarded by mutex_
};

}  // namespace benchwarden::daemon
