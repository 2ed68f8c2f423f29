#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "base/result.h"

namespace benchwarden::access {

/// An empty file with mode 0600 where there is none; one that others may read is narrowed to 0600.
/// kUnavailable when the disk refuses; kInvalid when it is no regular file or a symbolic link.
base::Status<> make_private_file(const std::filesystem::path& file);

/// Writes the whole file (mode 0600) durably, under another name first, so that it is never seen
/// half written. kConflict when it exists already.
base::Status<> write_private_file(const std::filesystem::path& file, std::string_view bytes);

/// The same, but in place of what was there: a reader finds the old bytes or the new ones.
base::Status<> replace_private_file(const std::filesystem::path& file, std::string_view bytes);

/// kNotFound when there is none; kInvalid when it is longer than `size_max`.
base::Result<std::string> read_private_file(const std::filesystem::path& file,
                                            std::size_t size_max);

}  // namespace benchwarden::access
