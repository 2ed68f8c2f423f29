#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "access/pepper.h"
#include "base/result.h"
#include "sqlite/database.h"

namespace benchwarden::access {

/// A code that a person carries from one screen to another. Only its HMAC under the pepper is
/// stored: 39 bits would not stand a search otherwise. At most one of a kind is there, in the one
/// row of a table with the columns code_hash and tries_left: with two, a wrong code could not be
/// counted against the one it was meant for.
struct CodeKind {
  std::string_view table;
  std::string_view purpose;  ///< goes into the HMAC: no code is right for another purpose
};
inline constexpr CodeKind kSetupCode{"setup_code", "set-up code "};
inline constexpr CodeKind kPairingCode{"pairing_code", "pairing code "};

std::string code_mark(const Pepper& pepper, const CodeKind& kind, const std::string& code);

enum class CodeCheck {
  kRight,
  kWrong,
  kLastTryWrong,  ///< the code is spent now
  kNoCode,        ///< none was made, or it is spent
};
/// A wrong code costs one try, a right one none.
base::Result<CodeCheck> check_code(sqlite::Database& database, const Pepper& pepper,
                                   const CodeKind& kind, const std::string& typed);
base::Status<> drop_code(sqlite::Database& database, const CodeKind& kind);

}  // namespace benchwarden::access
