#pragma once

#include <string>
#include <string_view>

namespace benchwarden::print {

inline constexpr char32_t kReplacement = U'\uFFFD';

/// Code points of the text; each byte that is not part of valid UTF-8 becomes one U+FFFD.
std::u32string decode_utf8(std::string_view text);
/// Surrogates and values above U+10FFFF must not occur; asserted.
std::string encode_utf8(std::u32string_view text);

}  // namespace benchwarden::print
