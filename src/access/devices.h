#pragma once

#include <cstdint>

#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// The code that person made pairs nothing any more. Done, too, if there is none.
base::Status<> drop_pairing_code_of(sqlite::Database& database, std::int64_t person);

}  // namespace benchwarden::access
