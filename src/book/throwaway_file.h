#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "book/connection.h"

namespace benchwarden::book {

/// Opens or makes a file beside the book that holds nothing the book depends on: one that cannot
/// be read is thrown away and made anew. kUnavailable: the disk or the folder does not let us.
base::Result<Connection> open_throwaway(const std::filesystem::path& path,
                                        const std::vector<std::string_view>& schema);

}  // namespace benchwarden::book
