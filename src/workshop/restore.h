#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

#include "workshop/backup_manifest.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

/// What to do about a book or people that are in the data folder already.
enum class Existing { kRefuse, kMoveAside };

struct RestoreRequest {
  std::filesystem::path backup;
  std::filesystem::path data_folder;  ///< made where it is missing
  Existing existing = Existing::kRefuse;
  std::optional<book::TreeHead> holds;  ///< a head kept elsewhere, which the book must go on from
  base::Instant now;
};
/// How the name of a folder begins that holds what was moved aside.
inline constexpr std::string_view kMovedAside = "replaced-";

struct Restored {
  BackupManifest manifest;
  std::filesystem::path aside;  ///< where what was there before lies; "" where nothing was
  bool is_signed = false;       ///< whether heads of its book were, and the key is wanted
};

/// Puts the book and the people of a backup into a data folder that nobody has open. Before
/// anything there is touched, a copy is held to the manifest, verified and folded, and must give
/// the tree head and the tallies of the manifest. What was there is moved into a folder in it and
/// never deleted. kNotFound: no backup there; kDamaged: it does not hold; kConflict: the data
/// folder holds a book or people, or the backup needs another program; kUnavailable.
base::Result<Restored> restore_backup(const RestoreRequest& request,
                                      const Definitions& definitions);

}  // namespace benchwarden::workshop
