#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "book/connection.h"

namespace benchwarden::book {

/// How a file beside the book is looked at before it is used.
enum class LookedAt {
  kWhole,       ///< all of its pages
  kAsItIsRead,  ///< only what opening it reads: who reads more finds the faults, and tells them
};

/// Opens or makes a file beside the book that holds nothing the book depends on: one that cannot
/// be read is thrown away and made anew. kUnavailable: the disk or the folder does not let us.
base::Result<Connection> open_throwaway(const std::filesystem::path& path,
                                        const std::vector<std::string_view>& schema,
                                        LookedAt looked_at);

/// Throws such a file away; nobody may have it open.
void remove_throwaway(const std::filesystem::path& path);

}  // namespace benchwarden::book
