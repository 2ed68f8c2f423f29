#pragma once

#include <optional>
#include <string>

#include "base/json.h"
#include "workshop/backup.h"
#include "workshop/ports.h"

namespace benchwarden::workshop {

/// Records that a backup was made: what it holds, and no path.
base::Result<book::Receipt> record_backup(const Ports& ports, const Backup& made);

/// What the program knows of its own backups beside the book.
struct BackupSchedule {
  bool scheduled = false;
  struct Failure {
    base::Instant at;
    std::string detail;
  };
  std::optional<Failure> failure;  ///< of the last try, where it failed
};

/// When the newest was made by the book, how many days ago, and whether the last try failed.
base::Json show_backups(const Ports& ports, const BackupSchedule& schedule);

}  // namespace benchwarden::workshop
