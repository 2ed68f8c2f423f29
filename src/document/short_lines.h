#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace benchwarden::document {

/// The text as lines of at most `most` signs, broken at blanks and, where a word is longer, within
/// it; for drawings, which know no font. most > 0; at least one line.
std::vector<std::string> short_lines(std::string_view text, std::size_t most);

/// The text, or as much of it as `most` signs hold with "…" at its end.
std::string shortened(std::string_view text, std::size_t most);

}  // namespace benchwarden::document
