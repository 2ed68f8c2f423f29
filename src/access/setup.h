#pragma once

#include <optional>
#include <string>

#include "access/pepper.h"
#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// Makes a code that lets the first manager in and replaces any before. None once somebody is
/// entered.
base::Result<std::optional<std::string>> renew_setup_code(sqlite::Database& database,
                                                          const Pepper& pepper, int tries);

}  // namespace benchwarden::access
