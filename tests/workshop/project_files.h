#pragma once

#include <string>
#include <string_view>

#include "base/data_file.h"
#include "workshop/definitions.h"

namespace benchwarden::workshop {

/// The project's own data files, as they are embedded in the program.
const base::DataFiles& project_files();
std::string_view font_bytes();
/// They, read and checked, as the built-in ones.
const Definitions& real_definitions();

/// The same files with `bytes` in the place of one of them. The bytes must outlive the result.
base::DataFiles files_with(std::string_view path, std::string_view bytes);
std::string bytes_of(std::string_view path);

}  // namespace benchwarden::workshop
