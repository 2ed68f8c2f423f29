#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "base/result.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

struct Exported {
  std::uint64_t entries = 0;
  std::string root_hex;
  std::size_t attachments = 0;
};

/// Writes the whole book of the data folder `from` into the new folder `to` in open formats, which
/// README.txt there describes; works beside a process that appends. All of it stands in `to` on the
/// disk, or nothing is left. kConflict: `to` is there already; kDamaged: the
/// entries do not give the root the book ends with; else as ReadBook::open.
base::Result<Exported> export_book(const std::filesystem::path& from,
                                   const std::filesystem::path& to, const Definitions& definitions);

}  // namespace benchwarden::workshop
