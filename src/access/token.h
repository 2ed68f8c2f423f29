#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/sha256.h"

namespace benchwarden::access {

std::string new_token();  ///< 256 bits from the operating system, base64url without padding
/// What is stored of a token. None: no token has this form.
std::optional<base::Sha256Digest> token_digest(std::string_view token);

/// Eight characters, no two of which look alike (none of 0 O 1 I L U): 39 bits.
std::string new_code();
/// As it was printed, whatever case, blanks and hyphens it was typed with.
std::string tidy_code(std::string_view typed);

}  // namespace benchwarden::access
