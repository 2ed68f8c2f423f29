#pragma once

#include <filesystem>
#include <string>

#include "workshop/backup_manifest.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

struct BackupRequest {
  std::filesystem::path data_folder;
  std::filesystem::path to;  ///< a folder that is there; the backup is a new one in it
  std::string program;       ///< version
  base::Instant now;
};
struct Backup {
  std::filesystem::path folder;
  BackupManifest manifest;
  base::Sha256Digest digest;  ///< of manifest.json
};

/// Copies the book and the people, each as of one moment, beside a process that appends, and
/// checks what was written: the book like `verify`, and its tallies against those stored in the
/// data folder. All of it stands on the disk, or nothing is left. The pepper, keys and certificates
/// are not in it. kNotFound: no book in the data folder; kDamaged: it does not verify;
/// kUnavailable: the disk refuses, or `to` is not there.
base::Result<Backup> make_backup(const BackupRequest& request, const Definitions& definitions);

}  // namespace benchwarden::workshop
