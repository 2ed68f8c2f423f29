#pragma once

#include <filesystem>
#include <vector>

#include "book/check_export.h"
#include "workshop/definitions.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {

/// What an export holds, once every byte and every signature of it was checked.
struct SealedExport {
  book::CheckedExport book;
  std::vector<book::KeptCheckpoint> checkpoints;
  std::vector<std::string> notes;  ///< how far the signatures reach, and where the key changes
};
/// book::check_export, and whether its checkpoints are signed and stand for its entries.
base::Result<SealedExport, book::ExportFaults> check_sealed_export(
    const std::filesystem::path& folder, const Definitions& definitions);

/// The same, as `verify` tells it.
Verified verify_export(const std::filesystem::path& folder, const Definitions& definitions);

}  // namespace benchwarden::workshop
