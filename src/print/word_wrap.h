#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "print/font_metrics.h"
#include "print/length.h"

namespace benchwarden::print {

/// Breaks printable text into lines no wider than `width`: at spaces (a run of spaces counts as
/// one and vanishes at a break), at "\n", and inside a word only when the word alone is too
/// wide. Thin and no-break spaces do not break. At least one line is returned. A single
/// character wider than `width` stands alone.
std::vector<std::string> wrap(std::string_view text, Mpt width, Mpt size, const FontMetrics& font);

/// The widest piece of the text that has no place to break.
Mpt widest_word(std::string_view text, Mpt size, const FontMetrics& font);

/// The narrowest width at which the text fits into two lines, broken at spaces only.
Mpt width_in_two_lines(std::string_view text, Mpt size, const FontMetrics& font);

}  // namespace benchwarden::print
