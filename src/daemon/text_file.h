#pragma once

#include <filesystem>
#include <string>

#include "base/result.h"

namespace benchwarden::daemon {

inline constexpr std::size_t kTextFileBytesMax = 1'048'576;

/// The bytes of a regular file of at most `bytes_max`. The error's detail is what is wrong
/// with the file, without its name: kNotFound when there is none; kInvalid when it is a folder or
/// a device, or longer; kUnavailable when the disk refuses.
base::Result<std::string> read_text_file(const std::filesystem::path& file,
                                         std::size_t bytes_max = kTextFileBytesMax);

}  // namespace benchwarden::daemon
