#pragma once

#include <filesystem>

#include "base/result.h"

namespace benchwarden::access {

/// Ends every session in `folder`/access.db, and every code that waits to be used, without the
/// pepper: for a file that comes from an older time. Brings its schema up to date.
base::Status<> forget_sessions(const std::filesystem::path& folder);

}  // namespace benchwarden::access
