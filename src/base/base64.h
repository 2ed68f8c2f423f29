#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "base/sha256.h"

namespace benchwarden::base {

/// RFC 4648 section 4, with padding.
std::string to_base64(std::string_view bytes);
/// The bytes of just such a text: with its padding, without line ends, and no bit of the last sign
/// set that says nothing. kInvalid else.
Result<std::string> from_base64(std::string_view text);
/// Of 32 bytes; kInvalid else.
Result<Sha256Digest> digest_from_base64(std::string_view text);

}  // namespace benchwarden::base
