#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "book/check_export.h"
#include "seal/verifier_key.h"
#include "workshop/definitions.h"
#include "workshop/upkeep.h"

namespace benchwarden::workshop {

/// What an export holds, once every byte and every signature of it was checked.
struct SealedExport {
  book::CheckedExport book;
  std::vector<book::KeptCheckpoint> checkpoints;
  std::vector<std::string> notes;  ///< how far the signatures reach, and where the key changes
};
/// book::check_export, whether its checkpoints are signed and stand for its entries, and whether
/// what it says beside them, tables and head, is what they give. Notes name what nothing but
/// digests.txt holds.
base::Result<SealedExport, book::ExportFaults> check_sealed_export(
    const std::filesystem::path& folder, const Definitions& definitions);

/// The same, as `verify` tells it; with a key whether that signed one of its checkpoints.
Verified verify_export(const std::filesystem::path& folder, const Definitions& definitions,
                       const std::optional<seal::VerifierKey>& key);

}  // namespace benchwarden::workshop
