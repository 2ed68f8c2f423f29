#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/timestamp.h"

namespace benchwarden::access {

/// What a script may do with its token: never anything about people, sessions, devices or tokens.
enum class TokenScope {
  kReads,
  kReadsAndEntries,  ///< entries in the name of the token's maker, without a PIN
};
std::string_view token_scope_name(TokenScope scope);
std::optional<TokenScope> token_scope_from_name(std::string_view name);

struct ScriptToken {
  std::string id;  ///< "t1"; lets nobody in
  std::string name;
  TokenScope scope = TokenScope::kReads;
  std::string made_by;
  base::Instant made_at;
  base::Instant ends_at;
  std::optional<base::Instant> last_used_at = {};  ///< to the minute
  std::optional<base::Instant> ended_at = {};      ///< before its time
};
struct NewScriptToken {
  ScriptToken token;
  std::string secret;  ///< "bwt_" and 256 bits, base64url; only its SHA-256 is stored
};

/// How every secret of a token begins, so that it is known for one where it turns up.
inline constexpr std::string_view kScriptTokenStart = "bwt_";

}  // namespace benchwarden::access
