#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "base/sha256.h"
#include "base/timestamp.h"
#include "book/backup_files.h"
#include "book/book.h"

namespace benchwarden::workshop {

// Beside the files of book/backup_files.
inline constexpr std::string_view kBackupManifest = "manifest.json";
inline constexpr std::string_view kBackupManifestDigest = "manifest.sha256";

/// What a backup says of itself.
struct BackupManifest {
  std::string program;  ///< version of the one that made it
  base::Instant made_at;
  book::TreeHead head;
  int fold_version = 0;  ///< of the tallies
  base::Sha256Digest tallies{};
  book::FilesByName files;
  friend bool operator==(const BackupManifest&, const BackupManifest&) = default;
};

std::string format_manifest(const BackupManifest& manifest);
/// Only the bytes that `format_manifest` gives. kDamaged otherwise; kConflict: of a format that
/// this program does not know.
base::Result<BackupManifest> parse_manifest(std::string_view text);

/// "<64 hex digits>  manifest.json", as `sha256sum` writes and checks it.
std::string manifest_digest_line(std::string_view manifest);

/// Reads the manifest in `folder` and holds it to its digest beside it. kNotFound: no backup there.
base::Result<BackupManifest> read_manifest(const std::filesystem::path& folder);

/// "20261130T104500Z".
std::string backup_time(base::Instant instant);
/// "benchwarden-20261130T104500Z" for a backup made then.
std::string backup_name(base::Instant made_at);

}  // namespace benchwarden::workshop
