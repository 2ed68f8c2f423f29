#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <variant>

#include "base/clock.h"
#include "base/result.h"
#include "book/check_export.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

struct ImportedBook {
  std::uint64_t entries = 0;
  std::string root_hex;
  std::size_t attachments = 0;
};

/// What came of it: the book; every fault of the export; or why the folder could not be made
/// (kConflict: it is not empty; kUnavailable).
using BookImportOutcome = std::variant<ImportedBook, book::ExportFaults, base::Error>;

/// Makes the book of the new or empty data folder `to` from the export in `from`: the same entries
/// with their numbers and times, and so the same tree head; checked like `verify` before it takes
/// its place. On a fault nothing is left behind. Persons are not in an export.
BookImportOutcome import_book(const std::filesystem::path& from, const std::filesystem::path& to,
                              const Definitions& definitions, const base::Clock& clock);

}  // namespace benchwarden::workshop
