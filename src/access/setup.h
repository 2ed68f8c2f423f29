#pragma once

#include <optional>
#include <string>

#include "access/pepper.h"
#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// The one-time code that lets the first manager in. Only its HMAC under the pepper is stored:
/// 39 bits would not stand a search otherwise.

/// Makes a code that replaces any before. None once somebody is entered.
base::Result<std::optional<std::string>> renew_setup_code(sqlite::Database& database,
                                                          const Pepper& pepper, int tries);

enum class CodeCheck {
  kRight,
  kWrong,
  kLastTryWrong,  ///< the code is spent now
  kNoCode,        ///< none was made, or it is spent
  kNotNeeded,     ///< somebody is entered already
};
/// A wrong code costs one try, a right one none.
base::Result<CodeCheck> check_setup_code(sqlite::Database& database, const Pepper& pepper,
                                         const std::string& typed);

base::Status<> drop_setup_code(sqlite::Database& database);

}  // namespace benchwarden::access
