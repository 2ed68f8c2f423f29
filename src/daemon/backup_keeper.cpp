#include "daemon/backup_keeper.h"

#include <chrono>
#include <exception>
#include <iostream>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "workshop/backup_rotation.h"

namespace benchwarden::daemon {
namespace {

constexpr std::int64_t kTryAgainMs = 3'600'000;  ///< after a failure

/// Names of the folders in `folder`, not followed where they are links.
std::vector<std::string> folders_in(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  std::error_code failure;
  for (const auto& item : std::filesystem::directory_iterator(folder, failure)) {
    std::error_code unknown;
    if (std::filesystem::is_directory(item.symlink_status(unknown))) {
      names.push_back(item.path().filename().string());
    }
  }
  return names;
}

/// The files a backup is made of, and then the folder: where somebody put something else in it,
/// that stays, and so does the folder.
void remove_backup(const std::filesystem::path& folder) {
  std::error_code ignored;
  for (const char* name : {"manifest.json", "manifest.sha256", "book.db", "book.db-journal",
                           "head.txt", "head.txt.new", "access.db", "access.db-journal"}) {
    std::filesystem::remove(folder / name, ignored);
  }
  std::filesystem::remove(folder, ignored);
}

}  // namespace

bool BackupKeeper::is_due(base::Instant now) const {
  // A clock that was set back must not put off the next try until it has caught up.
  if (failed_at_ && now >= *failed_at_ && now.ms - failed_at_->ms < kTryAgainMs) return false;
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  const base::Instant due = workshop::last_backup_due(now, config_.backup_at, zone);
  for (const std::string& name : folders_in(config_.backup_folder)) {
    const auto made_at = workshop::backup_made_at(name);
    if (!made_at || *made_at < due || *made_at > now) continue;
    if (workshop::is_backup_of(ports_.book, config_.backup_folder / name)) return false;
  }
  return true;
}

void BackupKeeper::look_after() {
  if (config_.backup_folder.empty()) return;
  if (running_.valid()) {
    if (running_.wait_for(std::chrono::seconds(0)) == std::future_status::ready) finish();
    return;
  }
  const base::Instant now = ports_.clock.now();
  if (is_due(now)) begin(now);
}

void BackupKeeper::begin(base::Instant now) {
  // What the copy is held to is then as new as the book.
  const auto kept = ports_.live.keep();
  if (!kept) return tell_failure(kept.error().detail);
  const workshop::BackupRequest request{config_.data_folder, config_.backup_folder,
                                        BENCHWARDEN_VERSION, now};
  try {
    running_ = std::async(std::launch::async, [this, request] {
      return workshop::make_backup(request, ports_.definitions);
    });
  } catch (const std::system_error& fault) {
    tell_failure(std::string("no thread for it: ") + fault.what());
  }
}

void BackupKeeper::finish() {
  if (!running_.valid()) return;
  try {
    take(running_.get());
  } catch (const std::exception& fault) {  // such as no memory for it
    tell_failure(fault.what());
  }
}

void BackupKeeper::take(const Outcome& outcome) {
  if (!outcome) return tell_failure(outcome.error().detail);
  const auto recorded = workshop::record_backup(ports_, *outcome);
  if (!recorded) return tell_failure(recorded.error().detail);
  failed_at_.reset();
  log_.settled("no-backup");
  {
    const std::lock_guard held(mutex_);
    failure_.reset();
  }
  std::cout << "backup " + outcome->folder.string() + "\n" << std::flush;
  rotate(ports_.clock.now());
}

void BackupKeeper::rotate(base::Instant now) {
  const base::Zone zone = workshop::zone_of(*ports_.live.view());
  std::vector<std::string> ours = folders_in(config_.backup_folder);
  std::erase_if(ours, [&](const std::string& name) {
    return !workshop::was_begun_as_backup(name) &&
           !workshop::is_backup_of(ports_.book, config_.backup_folder / name);
  });
  for (const std::string& name :
       workshop::backups_to_remove(ours, config_.backups_kept, zone, now)) {
    remove_backup(config_.backup_folder / name);
  }
}

void BackupKeeper::tell_failure(const std::string& detail) {
  const base::Instant now = ports_.clock.now();
  failed_at_ = now;
  {
    const std::lock_guard held(mutex_);
    failure_ = {now, detail};
  }
  log_.write_once(Severity::kError, "no-backup", detail);
}

workshop::BackupSchedule BackupKeeper::schedule() const {
  const std::lock_guard held(mutex_);
  return {!config_.backup_folder.empty(), failure_};
}

}  // namespace benchwarden::daemon
