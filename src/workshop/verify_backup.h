#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "workshop/backup_manifest.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {

/// Whether a manifest lies there: then the folder says of itself that it is a backup.
bool says_it_is_backup(const std::filesystem::path& folder);

/// What its book is, and the manifest says otherwise.
std::vector<std::string> faults_by_manifest(const Verified& book, const BackupManifest& manifest);

/// verify_book of a backup, with its head, its tallies and every file held to its manifest.
base::Result<Verified> verify_backup(const std::filesystem::path& folder,
                                     const Definitions& definitions);

}  // namespace benchwarden::workshop
